import type { Machine, State, StateId } from '@lockwright/machine'
import type { SheetField } from '@lockwright/runner-paper'
import type { FilledForm } from './read-filled-form.js'
import { CannotRun } from './read-input.js'

/** Who is meant by what stands in a field; null: nobody can be told. */
export type WhoIs = (written: string) => string | null

export interface FormToRead {
  readonly machine: Machine
  readonly fields: readonly SheetField[]
  readonly filled: FilledForm
  /** Numbers of the steps on this very sheet. */
  readonly numbers: ReadonlyMap<StateId, number>
  /** Axis to the value for which alone the sheet was printed. */
  readonly generations: Readonly<Record<string, string>>
  /** Day on which the work began, `2026-03-04`. */
  readonly day: string
  /** Offset of the clock by which the sheet was filled in, `+01:00`; null: that of this computer. */
  readonly zone: string | null
  /** Who worked with the sheet, where its first steps do not say it; null: nobody was named. */
  readonly worker: string | null
  readonly whoIs: WhoIs
}

/** Somebody who came to work under the lockout, or left it, as a file of answers has it. */
export type FormComing =
  | { readonly joins: string; readonly locks: Readonly<Record<string, string>> }
  | { readonly leaves: string; readonly time?: string }

/** An entry of a file of answers, as it is typed too. */
export interface FormEntry {
  readonly at: StateId
  readonly time?: string
  readonly ended?: string
  readonly by: string
  readonly locks?: Readonly<Record<string, string>>
  readonly note?: string
  readonly [key: string]: unknown
}

/** Everything that was put in for one step, for one time. */
export interface Card {
  readonly state: State
  readonly pass: number
  readonly place: number
  readonly fields: readonly SheetField[]
}

/** What stands in a field of a card; null: nothing. */
export function text({ filled }: Pick<FormToRead, 'filled'>, { fields }: Card, input: string): string | null {
  const value = filled.get(fields.find((field) => field.input === input)?.name ?? '')
  return typeof value === 'string' ? value : null
}

/** `step 9 (lock-out.3, Lock the isolators)`: as the sheet has it, and as the record has it. */
export function tellStep({ numbers }: Pick<FormToRead, 'numbers'>, { id, title }: State): string {
  const number = numbers.get(id)
  return number === undefined ? `\`${id}\` (${title})` : `step ${number} on the sheet (\`${id}\`, ${title})`
}

/** Whoever is meant by a name or initials in the form. */
export function personAt({ whoIs }: Pick<FormToRead, 'whoIs'>, written: string, where: string): string {
  const person = whoIs(written)
  if (person !== null) return person
  throw new CannotRun(
    `nobody can be told by \`${written}\`, which stands at ${where}. Say who it is: --initials "${written}=id".`
  )
}
