import type { StateId } from '@lockwright/machine'
import { digestOf } from '@lockwright/machine'
import type { ProvedMachine } from '@lockwright/proof'
import { readRoster, type Site } from '@lockwright/records'
import type { Generations } from '@lockwright/runner-paper'
import type { Answers } from '@lockwright/runner-terminal'
import { answersFrom } from './answers-from.js'
import { answersFromForm } from './answers-from-form.js'
import type { WhoIs } from './form-to-read.js'
import type { FilledForm, ReadForm } from './read-filled-form.js'
import { CannotRun } from './read-input.js'
import { sayNote } from './say.js'
import { writeAnswers } from './written-answers.js'

export interface SheetAnswers {
  readonly machine: ProvedMachine
  readonly site: Site
  /** What stands in the PDF; null: the answers were typed into a file. */
  readonly form: ReadForm | null
  /** Axis to the value for which alone the sheet was printed. */
  readonly generations: Generations
  readonly numbers: ReadonlyMap<StateId, number>
  /** Day on which the work began, where a filled PDF does not say it. */
  readonly date?: string
  /** Offset of the clock by which the sheet was filled in, `+01:00`. */
  readonly timeZone?: string
  /** `TL=tor`: whose initials they are. */
  readonly initials?: readonly string[]
  /** Who worked with the sheet, where its first steps do not say it. */
  readonly worker: string | null
}

/**
 * The answers of a completed sheet: typed into a file, or filled into the PDF. Those of a PDF are written down as a file
 * of answers beside it, so that a person can see what was read out of it, and correct it.
 */
export async function answersOfSheet(file: string, request: SheetAnswers): Promise<Answers> {
  const { form, generations, machine, numbers, worker } = request
  if (form === null) return ofGeneration(answersFrom(file), request)
  if (form.digest !== null && form.digest !== digestOf(machine)) {
    throw new CannotRun(
      `${file} was printed from another text of the procedure (digest ${form.digest.slice(0, 12)}…): its answers would be put to steps that do not stand on it. Give the text that was printed.`
    )
  }
  const { formFieldsOf } = await import('@lockwright/runner-paper')
  const fields = formFieldsOf(machine, generations)
  const known = new Set(fields.map(({ name }) => name))
  const strange = [
    ...differing(statesOf(form.names), statesOf(known)),
    ...[...form.filled.keys()].filter((name) => !known.has(name))
  ]
  if (strange.length > 0) throw new CannotRun(ofAnotherGeneration(file, generations, strange))
  const zone = zoneOf(request.timeZone) ?? form.zone
  const written = answersFromForm({
    machine,
    fields,
    filled: form.filled,
    numbers,
    generations,
    day: dayOf(form.filled, request.date),
    zone,
    worker,
    whoIs: whoIs(request)
  })
  const beside = file.replace(/\.pdf$/i, '.answers.yaml')
  writeAnswers(beside, written)
  sayNote(`read the form; its answers stand in ${beside}`)
  return answersFrom(beside)
}

function ofAnotherGeneration(file: string, generations: SheetAnswers['generations'], names: readonly string[]): string {
  const own = Object.entries(generations).map(([axis, value]) => `${axis} ${value}`)
  const of = own.length === 0 ? 'every generation' : own.join(', ')
  return (
    `${file} is not a sheet that was printed for ${of}: it differs in ${names.slice(0, 3).join(', ')}. ` +
    'Its answers would be put to steps that do not stand on it. Compare the serial number on its pages with --sheet.'
  )
}

/** The steps that fields belong to; those of the sheet as a whole are no step's. */
function statesOf(names: ReadonlySet<string>): ReadonlySet<string> {
  return new Set([...names].flatMap((name) => /^([^#].*)\.\d+\.[^.]+$/.exec(name)?.[1] ?? []))
}

function differing(one: ReadonlySet<string>, other: ReadonlySet<string>): readonly string[] {
  return [...[...one].filter((name) => !other.has(name)), ...[...other].filter((name) => !one.has(name))]
}

/** A sheet for one generation alone has no steps of another. */
function ofGeneration(answers: Answers, { generations, machine, numbers }: SheetAnswers): Answers {
  for (const answer of answers.answers) {
    if (answer.kind !== 'step' || answer.choose === null) continue
    const state = machine.states.find(
      ({ id, step }) =>
        answer.at === id || answer.at === step || (answer.at === '' && numbers.get(id) === answer.number)
    )
    if (state?.kind !== 'identify') continue
    const only = generations[state.axis]
    const axis = machine.axes.find(({ id }) => id === state.axis)
    const value = axis?.values.find(({ id }) => id === only)
    const index = axis?.values.findIndex(({ id }) => id === only) ?? -1
    const spellings = [value?.id, value?.name, String(index + 1)].map((one) => one?.toLowerCase())
    if (only !== undefined && !spellings.includes(answer.choose.toLowerCase())) {
      throw new CannotRun(
        `the sheet was printed for \`${only}\` alone, and line ${answer.place.start.line} of the answers chooses \`${answer.choose}\`. Find out which machine was worked on, and by which sheet.`
      )
    }
  }
  return answers
}

/** `UTC`, `Z` or an offset. */
function zoneOf(given: string | undefined): string | null {
  if (given === undefined) return null
  const [, offset] = /^(?:UTC)?([+-](?:0\d|1[0-4]):[0-5]\d)$/.exec(given) ?? []
  if (offset !== undefined) return offset
  if (/^(?:UTC|Z)$/i.test(given)) return '+00:00'
  throw new CannotRun(`\`${given}\` is no offset of a clock; write it as +01:00, or UTC.`)
}

function dayOf(filled: FilledForm, given: string | undefined): string {
  const began = writtenDay(filled, 'began')
  const completed = writtenDay(filled, 'completed')
  const contradiction =
    given !== undefined && began !== undefined && given !== began
      ? `--date says that the work began on ${given}, and the form says on its first page that it began on ${began}.`
      : completed !== undefined && contradicts(began ?? given ?? completed, completed)
        ? `The work began on ${began ?? given}, and the form says beside \`Sheet completed\` that it was done on ${completed}.`
        : null
  if (contradiction !== null)
    throw new CannotRun(`${contradiction} See which of the two is right, and correct the other.`)
  const day = began ?? given ?? completed
  if (day !== undefined) return day
  throw new CannotRun(
    'the form does not say on which day the work was done (beside `Work began on`, as 2026-03-04); give it with --date.'
  )
}

function writtenDay(filled: FilledForm, row: 'began' | 'completed'): string | undefined {
  const written = filled.get(`#sheet.1.${row}-date`)
  const day = /\d{4}-\d\d-\d\d/.exec(typeof written === 'string' ? written : '')?.[0]
  if (day === undefined && row === 'began' && typeof written === 'string')
    throw new CannotRun(`\`${written}\`, on the first page, is no day; write it as 2026-03-04.`)
  return day
}

/** Work goes on over one midnight at the most: the times of a sheet have no day of their own. */
function contradicts(began: string, completed: string): boolean {
  const days = (Date.parse(`${completed}T00:00:00Z`) - Date.parse(`${began}T00:00:00Z`)) / 86_400_000
  return days < 0 || days > 1
}

/** By what --initials says; else by id, printed name or initials on the roster, where only one person fits. */
function whoIs({ initials = [], site }: SheetAnswers): WhoIs {
  const told = new Map(
    initials.map((one): readonly [string, string] => {
      const [, written, id] = /^(.+)=([^=]+)$/.exec(one) ?? []
      if (written !== undefined && id !== undefined) return [plain(written), id]
      throw new CannotRun(`\`${one}\` does not say whose initials they are; write it as TL=tor.`)
    })
  )
  const roster = readRoster(site)
  const people = roster.ok ? roster.value.people : []
  return (written) => {
    const given = told.get(plain(written))
    if (given !== undefined) return given
    const fitting = people.filter(({ id, name }) =>
      [id, name, firstLetters(name)].some((one) => plain(one) === plain(written))
    )
    return fitting.length === 1 ? (fitting[0]?.id ?? null) : null
  }
}

function firstLetters(name: string): string {
  return name
    .split(/[\s-]+/)
    .map((word) => word.charAt(0))
    .join('')
}

function plain(text: string): string {
  return text.toLowerCase().replaceAll(/[\s.]/g, '')
}
