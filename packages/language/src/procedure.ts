import type { Quantity } from '@lockwright/energy'
import type { Content, Runs } from './content.js'
import type { FrontMatter } from './front-matter.js'
import type { AxisId, AxisValueId, ItemId, PointId, RestraintId, RoleId, SectionId, SourceId, StepId } from './ids.js'
import type { Place } from './place.js'

/** A safety message; it belongs to the step that follows it. */
export interface Notice {
  readonly word: 'danger' | 'warning' | 'caution' | 'notice'
  readonly label: Runs
  readonly body: readonly Content[]
  readonly place: Place
}

/** What a tool, part or protective item declares, as far as the declaration has it. */
export interface Item {
  readonly id: ItemId
  readonly kind: 'tool' | 'part' | 'wear'
  readonly label: Runs
  readonly place: Place
  /** tool: what an instrument measures (voltage, pressure, speed, temperature ...). */
  readonly measures?: string
  readonly rated?: Quantity
  readonly category?: 'II' | 'III' | 'IV'
  readonly range?: { readonly low: Quantity; readonly high: Quantity }
  readonly size?: string
  readonly torque?: string
  readonly needsCalibration: boolean
  /** part */
  readonly number?: string
  readonly quantity?: string
  /** wear: class of insulating gloves. */
  readonly glove?: '00' | '0' | '1' | '2' | '3' | '4'
}

/** What every step has. `place` is the opening line (for a list: its first line), `whole` all of it. */
export interface StepBase {
  readonly id: StepId
  /** True where the author gave `#id`. */
  readonly named: boolean
  readonly section: SectionId | null
  readonly place: Place
  readonly whole: Place
  /** Prose between the step before and this one. */
  readonly intro: readonly Content[]
  readonly notices: readonly Notice[]
  /** How to do it; the items of its lists are the boxes to tick. */
  readonly body: readonly Content[]
  readonly role?: RoleId
  readonly wear: readonly ItemId[]
  /** Usual duration in minutes. */
  readonly minutes?: number
  /** Every item that the step names: with, wear, part and `:ref`, each where it stands. */
  readonly items: readonly { readonly id: ItemId; readonly place: Place }[]
}

/** The `[label]` of a directive, where it has one; else empty. */
interface Labelled {
  readonly label: Runs
}

export type Step = StepBase &
  (
    | ({ readonly kind: 'notify' } & Labelled)
    | ({ readonly kind: 'operate' | 'shutdown' | 'tryout' | 'inspect' | 'clear' } & Labelled)
    | ({ readonly kind: 'look'; readonly near: readonly SourceId[] } & Labelled)
    | ({
        readonly kind: 'live'
        readonly near: readonly SourceId[]
        readonly apart: readonly SourceId[]
        readonly why?: string
        readonly permits: readonly StepId[]
      } & Labelled)
    | { readonly kind: 'identify'; readonly axis: AxisId }
    | { readonly kind: 'isolate' | 'lock' | 'unlock' | 'energize'; readonly at: readonly PointId[] }
    | {
        readonly kind: 'relieve'
        readonly of: readonly SourceId[]
        readonly wait?: Quantity
        readonly with: readonly ItemId[]
      }
    | { readonly kind: 'restrain' | 'remove'; readonly restraints: readonly RestraintId[] }
    | { readonly kind: 'lamp'; readonly of: readonly SourceId[]; readonly expect: 'dark' | 'lit' }
    | {
        readonly kind: 'prove'
        readonly of: readonly SourceId[]
        readonly with: readonly ItemId[]
        readonly known?: string
        readonly by: 'instrument' | 'trial'
      }
    | ({ readonly kind: 'signoff'; readonly role: RoleId } & Labelled)
    | {
        readonly kind: 'work'
        /** Sources that stay on during this work. */
        readonly leaves: readonly SourceId[]
        readonly why?: string
        readonly permits: readonly StepId[]
        readonly with: readonly ItemId[]
      }
    | ({
        readonly kind: 'measure'
        /** Unit as written, e.g. `V`. */
        readonly unit: string
        readonly min?: number
        readonly max?: number
        /** Where it is read without hands; exactly one of `from` and a non-empty `near`. */
        readonly from?: string
        readonly near: readonly SourceId[]
        readonly apart: readonly SourceId[]
        readonly with: readonly ItemId[]
        readonly why?: string
        readonly permits: readonly StepId[]
        /** What to do when it stays out of limits. */
        readonly outside?: Branch
      } & Labelled)
    | ({ readonly kind: 'wait'; readonly seconds: number } & Labelled)
    | ({ readonly kind: 'stop'; readonly tell?: string } & Labelled)
    | { readonly kind: 'finish' }
  )

export type StepKind = Step['kind']

/** A way that is taken under one condition; `says` is the prose before its first step. */
export interface Branch {
  readonly place: Place
  readonly says: readonly Content[]
  readonly body: readonly Block[]
}

/** What every choice has; its notices are acknowledged before it. */
export interface ChoiceBase {
  readonly id: StepId
  readonly named: boolean
  readonly section: SectionId | null
  readonly place: Place
  readonly whole: Place
  readonly intro: readonly Content[]
  readonly notices: readonly Notice[]
}

export type Choice = ChoiceBase &
  (
    | {
        readonly kind: 'by'
        readonly axis: AxisId
        readonly whens: readonly (Branch & { readonly values: readonly AxisValueId[] })[]
      }
    | { readonly kind: 'only'; readonly axis: AxisId; readonly values: readonly AxisValueId[]; readonly branch: Branch }
    | {
        readonly kind: 'ask'
        readonly question: Runs
        readonly role?: RoleId
        readonly answers: readonly (Branch & { readonly label: Runs })[]
      }
    | { readonly kind: 'within'; readonly seconds: number; readonly branch: Branch; readonly late: Branch }
    | { readonly kind: 'back'; readonly to: StepId }
    | { readonly kind: 'repeat'; readonly of: SectionId }
    | {
        readonly kind: 'remedies'
        readonly retest: SectionId
        readonly relock: SectionId
        /** The question that tells whether the last remedy cured the fault. */
        readonly cured: string
        readonly fixedOrder: boolean
        readonly remedies: readonly (Branch & {
          readonly label: Runs
          readonly chance?: number
          readonly minutes?: number
          readonly parts: readonly ItemId[]
        })[]
        readonly otherwise: Branch
      }
  )

export type ChoiceKind = Choice['kind']

/** A heading; it opens a section that runs to the next heading of the same or a higher level. */
export interface Heading {
  readonly kind: 'heading'
  readonly id: SectionId
  readonly level: number
  readonly title: string
  readonly place: Place
}

/** Where the first tool, part or wear line stands: all of them become one gathering state here. */
export interface Gather {
  readonly kind: 'gather'
  readonly place: Place
  readonly section: SectionId | null
  readonly intro: readonly Content[]
}

/** Prose with no step after it in its body. */
export interface Closing {
  readonly kind: 'closing'
  readonly content: readonly Content[]
  readonly place: Place
}

export type Block = Step | Choice | Heading | Gather | Closing

/**
 * A file that is well formed: every name is borne by something, every attribute fits, every notice has its
 * step. Whether it is safe is not said here.
 */
export interface Procedure {
  readonly file: string
  readonly head: FrontMatter
  readonly items: readonly Item[]
  readonly body: readonly Block[]
  /** The empty place behind the last character: where the implied finish stands. */
  readonly end: Place
}
