import { type Machine, type State, stateOf } from '@lockwright/machine'
import type { SheetField } from '@lockwright/runner-paper'
import type { FilledForm } from './read-filled-form.js'
import { CannotRun } from './read-input.js'
import { sheetTimes } from './sheet-times.js'

/** Who is meant by what stands in a field; null: nobody can be told. */
export type WhoIs = (written: string) => string | null

export interface FormToRead {
  readonly machine: Machine
  readonly fields: readonly SheetField[]
  readonly filled: FilledForm
  /** Day on which the work began, `2026-03-04`, in the time zone of this computer. */
  readonly day: string
  readonly whoIs: WhoIs
}

/** An entry of a file of answers, as it is typed too. */
interface FormEntry {
  readonly at: string
  readonly time?: string
  readonly by?: string
  readonly note?: string
  readonly [key: string]: unknown
}

/** Everything that was put in for one step, for one time. */
interface Card {
  readonly state: State
  readonly pass: number
  readonly place: number
  readonly fields: readonly SheetField[]
}

/**
 * The answers of a filled sheet, as the text of a file of answers. A step was done where its initials or its time is
 * filled. Steps are in the order of their times; of those of one minute, in the order of the sheet.
 */
export function answersFromForm(form: FormToRead): string {
  const cards = cardsOf(form)
  if (cards.length === 0) throw new CannotRun('the sheet is empty: no step on it has initials or a time.')
  const timed = sheetTimes(
    cards.map((card) => ({ card, ...timeWritten(form, card) })),
    form.day
  )
  let by: string | null = null
  let last = ''
  const entries = timed.map(({ card, at }) => {
    const who = initialsOf(form, card) ?? by
    const entry: FormEntry = {
      at: card.state.id,
      ...(at === last ? {} : { time: at }),
      ...(who === null || who === by ? {} : { by: who }),
      ...answersOf(form, card)
    }
    by = who
    last = at
    return entry
  })
  return [
    '# What was filled in on a printed sheet, read out of its form by `lockwright enter`.',
    `clock: ${JSON.stringify({ start: timed[0]?.at, pace: '1 s' })}`,
    'answers:',
    ...withNotes(form, entries).map((entry) => `  - ${JSON.stringify(entry)}`),
    ''
  ].join('\n')
}

function cardsOf({ machine, fields, filled }: FormToRead): readonly Card[] {
  const byStep = new Map<string, SheetField[]>()
  for (const field of fields) {
    if (field.state === null) continue
    const key = `${field.state} ${passOf(field, fields)}`
    byStep.set(key, [...(byStep.get(key) ?? []), field])
  }
  return [...byStep.values()].flatMap((own, place) => {
    const [first] = own
    const done = own.some(({ input, name }) => (input === 'initials' || input === 'time') && filled.has(name))
    if (first?.state == null || !done) return []
    return [{ state: stateOf(machine, first.state), pass: passOf(first, fields), place, fields: own }]
  })
}

/** Attempts at one reading belong to the step as a whole: only where the step has several passes is a field of one of them. */
function passOf(field: SheetField, fields: readonly SheetField[]): number {
  const passes = fields.filter(({ input, state }) => state === field.state && input === 'initials').length
  return passes > 1 ? field.pass : 1
}

function text({ filled }: FormToRead, { fields }: Card, input: string): string | null {
  const value = filled.get(fields.find((field) => field.input === input)?.name ?? '')
  return typeof value === 'string' ? value : null
}

function initialsOf(form: FormToRead, card: Card): string | null {
  const written = text(form, card, 'initials') ?? text(form, card, 'sign') ?? text(form, card, 'page-name')
  return written === null ? null : personOf(form, card, written)
}

function personOf({ whoIs }: FormToRead, { state }: Card, written: string): string {
  const person = whoIs(written)
  if (person !== null) return person
  throw new CannotRun(
    `nobody can be told by \`${written}\`, which stands at \`${state.id}\` (${state.title}). Say who it is: --initials "${written}=id".`
  )
}

function answersOf(form: FormToRead, card: Card): Record<string, unknown> {
  const { filled } = form
  const { fields, state } = card
  const unticked = fields.filter(({ kind, name }) => kind === 'tick' && !filled.has(name))
  if (unticked.length > 0) notTicked(card, unticked)
  const locks = fields.flatMap(({ input, kind, name }) => {
    const value = filled.get(name)
    const point = /^(?:un)?lock-(.+)$/.exec(input)?.[1]
    return kind === 'lock' && point !== undefined && typeof value === 'string' ? [[point, value] as const] : []
  })
  const boxes = fields.some(({ input, kind }) => kind === 'tick' && isBox(state, input))
  const instrument = fields.find(({ kind, name }) => kind === 'instrument' && filled.has(name))
  const [choice, left, signed] = ['choice', 'left', 'sign'].map((input) => text(form, card, input))
  const readings = readingsOf(form, card)
  return {
    ...(boxes ? { ticks: 'all' } : {}),
    ...(locks.length === 0 ? {} : { locks: Object.fromEntries(locks) }),
    ...(Object.keys(readings).length === 0 ? {} : { readings }),
    ...(instrument === undefined ? {} : { with: filled.get(instrument.name) }),
    ...(fields.some(({ input, kind }) => kind === 'tick' && input.startsWith('wait')) ? { wait: 'over' } : {}),
    ...(choice == null || choice === 'inside' ? {} : { choose: choice }),
    ...(state.kind === 'stop' ? { stop: state.reason, ...(left == null ? {} : { left }) } : {}),
    ...(signed == null || state.kind !== 'signoff' ? {} : { sign: { person: personOf(form, card, signed) } })
  }
}

function isBox({ inputs }: State, input: string): boolean {
  return inputs.some((one) => one.kind === 'box' && one.id === input)
}

/** What was read under each name, one after the other; a bare number is in the unit that is printed beside it. */
function readingsOf({ filled }: FormToRead, { fields, state }: Card): Record<string, readonly string[]> {
  const readings: Record<string, string[]> = {}
  for (const { input, kind, name } of fields) {
    const value = filled.get(name)
    if (kind !== 'reading' || typeof value !== 'string') continue
    const unit = state.inputs.flatMap((one) => (one.kind === 'reading' && one.id === input ? [one.unit] : []))[0]
    const typed = /^[-+]?[\d.,]+$/.test(value) && unit !== undefined ? `${value} ${unit}` : value
    readings[input] = [...(readings[input] ?? []), typed]
  }
  return readings
}

/** Nothing that the sheet leaves open is entered as if it had been done. */
function notTicked({ state }: Card, unticked: readonly SheetField[]): never {
  const what = unticked.map(({ tip }) => `  ${tip}`).join('\n')
  throw new CannotRun(
    `\`${state.id}\` (${state.title}) has initials or a time, and this is not ticked there:\n${what}\n` +
      'Ask whoever worked with the sheet. If the step was not finished, take its initials and time out of the form; what stands before it can be entered.'
  )
}

/**
 * The time of a wait is that of its beginning, where the sheet says it; where it has only the time at its end, the wait
 * began so long before, at the latest.
 */
function timeWritten(form: FormToRead, card: Card): { readonly written: string | null; readonly wait: number } {
  const started = card.fields.find(({ input, kind }) => kind === 'time' && input.endsWith('-started'))
  const begun = started === undefined ? null : text(form, card, started.input)
  if (begun !== null) return { written: begun, wait: 0 }
  const waits = card.state.inputs.flatMap((input) => (input.kind === 'wait' ? [input.seconds] : []))
  return { written: text(form, card, 'time'), wait: Math.max(0, ...waits) }
}

/** Notes and deviations stand in tables of their own, each beside the number of its step. */
function withNotes({ filled, fields }: FormToRead, entries: readonly FormEntry[]): readonly FormEntry[] {
  const notes = new Map<string, string[]>()
  for (const part of ['notes', 'deviations']) {
    for (let row = 1; filled.has(`#${part}.1.${row}-what`); row += 1) {
      const what = String(filled.get(`#${part}.1.${row}-what`))
      const number = String(filled.get(`#${part}.1.${row}-step`) ?? '')
      const signed = filled.get(`#${part}.1.${row}-signed`)
      const at = fields.find(({ input, tip }) => input === 'initials' && new RegExp(`\\b${number}\\.`).test(tip))?.state
      const entry = entries.find((one) => number !== '' && one.at === at) ?? entries[0]
      const told = [
        part === 'deviations' ? `Done differently: ${what}` : what,
        ...(signed === undefined ? [] : [signed])
      ]
      if (entry !== undefined) notes.set(entry.at, [...(notes.get(entry.at) ?? []), told.join(' - ')])
    }
  }
  const given = new Set<string>()
  return entries.map((entry) => {
    const note = notes.get(entry.at)
    if (note === undefined || given.has(entry.at)) return entry
    given.add(entry.at)
    return { ...entry, note: note.join('; ') }
  })
}
