import type { AxisId, AxisValueId } from '@lockwright/language'
import type { ProofReport } from '@lockwright/proof'
import type { SheetLanguage } from './catalog.js'
import type { LoadImage } from './pictures/picture.js'
import type { FilledTemplates } from './templates/fill-templates.js'

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
  /** The number under which the records know this sheet; the sheet says so where it has none. */
  readonly serial?: string
  /** The clock by which the sheet asks for times, as an offset from UTC such as `+01:00`; left off the sheet where absent. */
  readonly zone?: string
  /** Of the fixed wording, dates and numbers; where absent the procedure's own, or English where there is no catalog. */
  readonly language?: SheetLanguage
  /** What the templates of a site gave for this sheet (`templatesForSheet`). */
  readonly templates?: FilledTemplates
  /** Finds the images that the procedure names; without it, each is told by its alternate text. */
  readonly images?: LoadImage
  /** What the proof looked at; its obligations and sizes go on the proof line. */
  readonly report?: ProofReport
}

/** What a calculation sheet needs besides its figures. The clock is never read. */
export type EnergySheetOptions = Pick<PrintOptions, 'paper' | 'digest' | 'now' | 'language'>
