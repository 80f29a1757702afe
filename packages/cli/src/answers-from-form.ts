import type { State } from '@lockwright/machine'
import { stateOf } from '@lockwright/machine'
import type { SheetField } from '@lockwright/runner-paper'
import { type Card, type FormEntry, type FormToRead, personAt, tellStep, text } from './form-to-read.js'
import { instrumentsOnForm } from './instruments-on-form.js'
import { locksOnForm } from './locks-on-form.js'
import { withNotes } from './notes-on-form.js'
import { withPeople } from './people-on-form.js'
import { CannotRun } from './read-input.js'
import { clockTime, type SheetClock, sheetTimes } from './sheet-times.js'

/**
 * The answers of a filled sheet, as the text of a file of answers. A step was done where its initials or its time is
 * filled. Steps are in the order of their times; of those of one minute, in the order of the sheet.
 */
export function answersFromForm(form: FormToRead): string {
  const cards = cardsOf(form)
  if (cards.length === 0) throw new CannotRun('the sheet is empty: no step on it has initials or a time.')
  const timed = sheetTimes(
    cards.map((card) => ({ card, ...timeWritten(form, card), told: tellStep(form, card.state) })),
    form
  )
  let by = form.worker
  let last = ''
  const owners = new Map<string, string>()
  const entries = timed.map(({ card, at, ended }): FormEntry => {
    const who = initialsOf(form, card) ?? by
    if (who === null) throw new CannotRun(nobodyNamed(tellStep(form, card.state)))
    const locks = locksOnForm(form, card, who, owners)
    const entry: FormEntry = {
      at: card.state.id,
      ...(at === last ? {} : { time: at }),
      ...(ended === null ? {} : { ended }),
      by: who,
      ...(locks === undefined ? {} : { locks }),
      ...answersOf(form, card)
    }
    by = who
    last = ended ?? at
    return entry
  })
  return [
    '# What was filled in on a printed sheet, read out of its form by `lockwright enter`.',
    `clock: ${JSON.stringify({ start: timed[0]?.at, pace: '1 s' })}`,
    'answers:',
    ...withPeople(form, withNotes(form, entries)).map((entry) => `  - ${JSON.stringify(entry)}`),
    ''
  ].join('\n')
}

function nobodyNamed(where: string): string {
  return `nobody can be told who did ${where}: it has no initials, nor has a step before it. Say who worked with the sheet: --worked-by id.`
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

function initialsOf(form: FormToRead, card: Card): string | null {
  const written = text(form, card, 'initials') ?? text(form, card, 'sign') ?? text(form, card, 'page-name')
  return written === null ? null : personAt(form, written, tellStep(form, card.state))
}

function answersOf(form: FormToRead, card: Card): Record<string, unknown> {
  const { filled } = form
  const { fields, state } = card
  const unticked = fields.filter(({ kind, name }) => kind === 'tick' && !filled.has(name))
  if (unticked.length > 0) notTicked(tellStep(form, state), unticked)
  const boxes = fields.some(({ input, kind }) => kind === 'tick' && isBox(state, input))
  const instruments = instrumentsOnForm(form, card)
  const [choice, left, signed] = ['choice', 'left', 'sign'].map((input) => text(form, card, input))
  const readings = readingsOf(form, card)
  return {
    ...(boxes ? { ticks: 'all' } : {}),
    ...(Object.keys(readings).length === 0 ? {} : { readings }),
    ...(instruments === undefined ? {} : { with: instruments }),
    ...(fields.some(({ input, kind }) => kind === 'tick' && input.startsWith('wait')) ? { wait: 'over' } : {}),
    ...chosen(form, card, choice ?? null),
    ...(state.kind === 'stop' ? { stop: state.reason, ...(left == null ? {} : { left }) } : {}),
    ...(signed == null || state.kind !== 'signoff'
      ? {}
      : { sign: { person: personAt(form, signed, tellStep(form, state)) } })
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
function notTicked(where: string, unticked: readonly SheetField[]): never {
  const what = unticked.map(({ tip }) => `  ${tip}`).join('\n')
  throw new CannotRun(
    `${where} has initials or a time, and this is not ticked there:\n${what}\n` +
      'Ask whoever worked with the sheet. If the step was not finished, take its initials and time out of the form; what stands before it can be entered.'
  )
}

/**
 * The time of a wait is that of its beginning, where the sheet says it; where it has only the time at its end, the wait
 * began so long before, at the latest. Its end is the time of the step, unless what is filled in as its end lies too early.
 */
function timeWritten(
  form: FormToRead,
  card: Card
): { readonly written: string | null; readonly ended: string | null; readonly wait: number } {
  const { fields, state } = card
  const own = text(form, card, 'time')
  const started = fields.find(({ input, kind }) => kind === 'time' && input.endsWith('-started'))
  const ends = started === undefined ? null : text(form, card, started.input.replace(/-started$/, '-ends'))
  const begun = started === undefined ? null : text(form, card, started.input)
  const waits = state.inputs.flatMap((input) => (input.kind === 'wait' ? [input.seconds] : []))
  const longest = Math.max(0, ...waits)
  if (begun === null) return { written: own ?? ends, ended: null, wait: longest }
  const early = ends !== null && shorterThan(longest, begun, ends, form)
  return { written: begun, ended: early ? ends : (own ?? ends), wait: 0 }
}

function shorterThan(seconds: number, begun: string, ends: string, clock: SheetClock): boolean {
  const from = clockTime(begun, '', clock)
  return Date.parse(clockTime(ends, from, clock)) - Date.parse(from) < Math.floor(seconds / 60) * 60_000
}

/** A sheet that was printed for one generation alone has nothing to choose there, and fits a machine of that generation. */
function chosen(form: FormToRead, { state }: Card, choice: string | null): { readonly choose?: string } {
  const only = state.kind === 'identify' ? form.generations[state.axis] : undefined
  if (only !== undefined && choice !== null && choice !== only) {
    throw new CannotRun(
      `the sheet was printed for \`${only}\` alone, and ${tellStep(form, state)} has \`${choice}\`. Its steps are not those of that generation: find out which machine was worked on, and by which sheet.`
    )
  }
  const answer = only ?? choice
  return answer === null || answer === 'inside' ? {} : { choose: answer }
}
