import type { AxisId, AxisValueId } from '@lockwright/language'
import type { ProofReport } from '@lockwright/proof'

export type Paper = 'a4' | 'letter'

/** Whether a coordinator signed this machine out for use. `at` is RFC 3339. */
export type IssueState =
  | { readonly kind: 'draft' }
  | { readonly kind: 'issued'; readonly by: string; readonly at: string }

/** The generations that a sheet is printed for; an axis that is not named is printed with all its values. */
export type Generations = Readonly<Record<AxisId, AxisValueId>>

/** What a sheet needs besides the machine. The clock is never read: the same options give the same bytes. */
export interface PrintOptions {
  readonly paper: Paper
  readonly for?: Generations
  readonly issue: IssueState
  /** Of the whole machine, as `digestOf` gives it: 64 hexadecimal digits. */
  readonly digest: string
  /** When it was printed, RFC 3339; left off the sheet where absent. */
  readonly now?: string
  /** What the proof looked at; its obligations and sizes go on the proof line. */
  readonly report?: ProofReport
}

/** What a calculation sheet needs besides its figures. The clock is never read. */
export type EnergySheetOptions = Pick<PrintOptions, 'paper' | 'digest' | 'now'>
