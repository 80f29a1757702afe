import type { Quantity } from '@lockwright/energy'
import type {
  AxisId,
  AxisValueId,
  Content,
  ItemId,
  PointId,
  RestraintId,
  RoleId,
  SectionId,
  SourceId,
  StepId,
  Notice as WrittenNotice
} from '@lockwright/language'
import type { Thing, Turn } from './condition.js'
import type { PermitId, StateId } from './ids.js'

/** Lines and columns in the procedure's source, from 1; the end lies behind the last character. */
export interface Span {
  readonly line: number
  readonly column: number
  readonly endLine: number
  readonly endColumn: number
}

export interface MachineNotice {
  /** `n1`, `n2` ... within its state. */
  readonly id: string
  readonly word: WrittenNotice['word']
  readonly label: string
  readonly body: readonly Content[]
}

/** What a state asks the person for; each has an id of its own within the state. */
export type Input =
  /** A box to tick. `of` says what it stands for; `text` is the author's, empty for the fixed ones. */
  | {
      readonly kind: 'box'
      readonly id: string
      readonly of: 'item' | 'tester-before' | 'tester-after' | 'trial'
      readonly text: string
      /** trial: the source that is tried; else null. */
      readonly source: SourceId | null
    }
  /** A personal lock on this point, by number. */
  | { readonly kind: 'lock'; readonly id: string; readonly point: PointId }
  /** Own lock off this point. */
  | { readonly kind: 'unlock'; readonly id: string; readonly point: PointId }
  | {
      readonly kind: 'reading'
      readonly id: string
      readonly label: string
      readonly unit: string
      readonly limits: Limits
      /** prove: the source that is verified; null for a measure. */
      readonly source: SourceId | null
    }
  | {
      readonly kind: 'wait'
      readonly id: string
      readonly seconds: number
      /** Which of the written, the label's and the computed wait it is. */
      readonly because: 'written' | 'label' | 'computed'
      /** relieve: the source that is waited for; null for a plain wait. */
      readonly source: SourceId | null
    }

/** A reading passes when it lies in min..max (ends included) and below `below` (end excluded; at 0: not above). */
export interface Limits {
  readonly min: number | null
  readonly max: number | null
  readonly below: number | null
}

/** Where an event leads. */
export type Exit =
  | { readonly on: 'done'; readonly to: StateId }
  /** ask: the answer `a1`, `a2` ... */
  | {
      readonly on: 'answer'
      readonly answer: string
      readonly label: string
      readonly says: readonly Content[]
      readonly to: StateId
    }
  /** identify: every value leads on; the axis keeps the answer. */
  | { readonly on: 'identified'; readonly value: AxisValueId; readonly to: StateId }
  /** branch: taken of itself by the known value. */
  | { readonly on: 'value'; readonly value: AxisValueId; readonly says: readonly Content[]; readonly to: StateId }
  /** measure */
  | { readonly on: 'inside'; readonly to: StateId }
  /** Out of limits: taken once more, from the same state. */
  | { readonly on: 'again'; readonly to: StateId }
  | { readonly on: 'outside'; readonly says: readonly Content[]; readonly to: StateId }
  /** A step of a `within` block that was not done in time. */
  | { readonly on: 'late'; readonly within: StateId; readonly says: readonly Content[]; readonly to: StateId }

/** Every kind of state. The last row passes of itself; all others rest and ask. */
export type StateKind =
  | 'gather'
  | 'notify'
  | 'operate'
  | 'look'
  | 'live'
  | 'shutdown'
  | 'identify'
  | 'isolate'
  | 'lock'
  | 'relieve'
  | 'restrain'
  | 'lamp'
  | 'prove'
  | 'tryout'
  | 'signoff'
  | 'work'
  | 'measure'
  | 'wait'
  | 'inspect'
  | 'clear'
  | 'remove'
  | 'unlock'
  | 'energize'
  | 'stop'
  | 'finish'
  | 'ask'
  | 'notice'
  | 'branch'
  | 'timer'
  | 'back'

export interface StateBase {
  readonly id: StateId
  /** The step as written; copies of one step share it. */
  readonly step: StepId
  readonly section: SectionId | null
  readonly span: Span
  /** One plain line. */
  readonly title: string
  readonly intro: readonly Content[]
  readonly notices: readonly MachineNotice[]
  readonly body: readonly Content[]
  readonly role: RoleId | null
  readonly wear: readonly ItemId[]
  readonly minutes: number | null
  /** Items that the step names, each where it stands. */
  readonly items: readonly { readonly id: ItemId; readonly span: Span }[]
  readonly inputs: readonly Input[]
  /** Things without any of which, on this generation, the step does nothing; empty: it always does. */
  readonly things: readonly Thing[]
  readonly turns: readonly Turn[]
  readonly exits: readonly Exit[]
}

/** A state: what every state has, and what its kind adds. */
export type State = StateBase &
  (
    | {
        readonly kind:
          | 'gather'
          | 'notify'
          | 'operate'
          | 'shutdown'
          | 'tryout'
          | 'inspect'
          | 'clear'
          | 'notice'
          | 'finish'
      }
    | { readonly kind: 'look'; readonly near: readonly SourceId[] }
    | {
        readonly kind: 'live'
        readonly near: readonly SourceId[]
        readonly apart: readonly SourceId[]
        readonly why: string | null
        readonly permits: readonly PermitId[]
      }
    | { readonly kind: 'identify'; readonly axis: AxisId }
    | { readonly kind: 'isolate' | 'lock' | 'unlock' | 'energize'; readonly points: readonly PointId[] }
    | {
        readonly kind: 'relieve'
        readonly sources: readonly SourceId[]
        readonly with: readonly ItemId[]
        /** The wait as the author wrote it, null where none is written; the inputs hold the wait that is asked for. */
        readonly wait: Quantity | null
      }
    | { readonly kind: 'restrain' | 'remove'; readonly restraints: readonly RestraintId[] }
    | { readonly kind: 'lamp'; readonly sources: readonly SourceId[]; readonly expect: 'dark' | 'lit' }
    | {
        readonly kind: 'prove'
        readonly sources: readonly SourceId[]
        readonly with: readonly ItemId[]
        readonly known: string | null
        readonly by: 'instrument' | 'trial'
      }
    | { readonly kind: 'signoff'; readonly role: RoleId; readonly meaning: string; readonly permit: PermitId }
    | {
        readonly kind: 'work'
        readonly leaves: readonly SourceId[]
        readonly why: string | null
        readonly permits: readonly PermitId[]
        readonly with: readonly ItemId[]
      }
    | {
        readonly kind: 'measure'
        readonly unit: string
        readonly from: string | null
        readonly near: readonly SourceId[]
        readonly apart: readonly SourceId[]
        readonly with: readonly ItemId[]
        readonly why: string | null
        readonly permits: readonly PermitId[]
      }
    | { readonly kind: 'wait'; readonly why: string }
    | { readonly kind: 'stop'; readonly reason: string; readonly tell: string | null }
    | { readonly kind: 'ask'; readonly question: string }
    | { readonly kind: 'branch'; readonly axis: AxisId }
    /** Goes back to an earlier step. */
    | { readonly kind: 'back'; readonly to: StateId }
    /** Entering a `within` block starts its clock. */
    | { readonly kind: 'timer'; readonly seconds: number }
  )
