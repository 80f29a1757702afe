import type { StepId } from '@lockwright/language'
import type { StateId } from '@lockwright/machine'

/** What is put into a field of the sheet. */
export type FieldKind =
  | 'tick'
  | 'choice'
  | 'reading'
  | 'lock'
  | 'instrument'
  | 'name'
  | 'initials'
  | 'time'
  | 'date'
  | 'signature'
  | 'text'

/** One thing to fill in on a sheet, before it is known how often there is room for it. */
export interface FormField {
  /** The state whose step asks for it, or `#part` for the tables that belong to the sheet as a whole. */
  readonly owner: StateId | SheetPartName
  /** The step's printed name; null on the tables of the sheet, and where a step has no answer in the record. */
  readonly step: StepId | null
  readonly kind: FieldKind
  /** The id of the machine's input where there is one; else a fixed word (`initials`, `told`, `choice`). */
  readonly input: string
  /** What a person is told who does not see the sheet. */
  readonly tip: string
  /** choice: what is recorded where this circle is the one. */
  readonly value?: string
}

/** No id of a procedure begins with this sign, so that no step can take the name. */
export type SheetPartName = `#${string}`

/** The full name of a field in the PDF: owner, which time (from 1), input. Stable for one machine. */
export function fieldName({ owner, input }: FormField, pass: number): string {
  return `${owner}.${pass}.${input}`
}
