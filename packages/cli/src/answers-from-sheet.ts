import { existsSync, readFileSync } from 'node:fs'
import { digestOf } from '@lockwright/machine'
import type { ProvedMachine } from '@lockwright/proof'
import { readRoster, type Site } from '@lockwright/records'
import type { Answers } from '@lockwright/runner-terminal'
import { answersFrom } from './answers-from.js'
import { answersFromForm, type WhoIs } from './answers-from-form.js'
import { type FilledForm, isFilledForm, readFilledForm } from './read-filled-form.js'
import { CannotRun } from './read-input.js'
import { sayNote } from './say.js'
import { writeOutput } from './write-output.js'

export interface SheetAnswers {
  readonly machine: ProvedMachine
  readonly site: Site
  /** Day on which the work began, where a filled PDF does not say it. */
  readonly date?: string
  /** `TL=tor`: whose initials they are. */
  readonly initials?: readonly string[]
}

/**
 * The answers of a completed sheet: typed into a file, or filled into the PDF. Those of a PDF are written down as a file
 * of answers beside it, so that a person can see what was read out of it, and correct it.
 */
export async function answersOfSheet(file: string, request: SheetAnswers): Promise<Answers> {
  if (!isFilledForm(file)) return answersFrom(file)
  const { formFieldsOf } = await import('@lockwright/runner-paper')
  const { digest, filled } = await readFilledForm(file)
  if (digest !== null && digest !== digestOf(request.machine)) {
    throw new CannotRun(
      `${file} was printed from another text of the procedure (digest ${digest.slice(0, 12)}…): its answers would be put to steps that do not stand on it. Give the text that was printed.`
    )
  }
  const written = answersFromForm({
    machine: request.machine,
    fields: formFieldsOf(request.machine),
    filled,
    day: dayOf(filled, request.date),
    whoIs: whoIs(request)
  })
  const beside = file.replace(/\.pdf$/i, '.answers.yaml')
  if (existsSync(beside) && readFileSync(beside, 'utf8') !== written) {
    throw new CannotRun(
      `${beside} stands there already and holds other answers than the form. Enter that file if it was corrected, or remove it.`
    )
  }
  writeOutput(beside, written)
  sayNote(`read the form; its answers stand in ${beside}`)
  return answersFrom(beside)
}

function dayOf(filled: FilledForm, given: string | undefined): string {
  if (given !== undefined) return given
  const completed = filled.get('#sheet.1.completed-date')
  const day = /\d{4}-\d\d-\d\d/.exec(typeof completed === 'string' ? completed : '')?.[0]
  if (day !== undefined) return day
  throw new CannotRun(
    'the form does not say on which day the work was done (beside `Sheet completed`, as 2026-03-04); give it with --date.'
  )
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
