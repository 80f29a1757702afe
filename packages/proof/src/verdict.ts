import type { Diagnostic, NonEmpty } from '@lockwright/language'
import type { Machine } from '@lockwright/machine'

declare const proved: unique symbol

/** A machine whose obligations were all proven (or lawfully waived). Only `prove` gives one; runners take nothing else. */
export type ProvedMachine = Machine & { readonly [proved]: true }

/** `not-checked-yet`: an obligation of the contract that this version does not look at; nothing is said of it. */
export type Outcome = 'holds' | 'fails' | 'does-not-arise' | 'waived' | 'undecided' | 'not-checked-yet'

/** What was looked at, and what came of it. */
export interface ProofReport {
  readonly states: number
  /** Reachable pairs of state and ledger that were explored. */
  readonly configurations: number
  readonly milliseconds: number
  readonly obligations: readonly { readonly id: string; readonly outcome: Outcome }[]
}

export type Verdict =
  | {
      readonly kind: 'proved'
      readonly machine: ProvedMachine
      readonly report: ProofReport
      readonly notes: readonly Diagnostic[]
    }
  | { readonly kind: 'refused'; readonly diagnostics: NonEmpty<Diagnostic>; readonly report: ProofReport }
  /** A limit was reached: nothing is proven. Diagnostics found so far are kept. */
  | {
      readonly kind: 'undecided'
      readonly reason: string
      readonly diagnostics: readonly Diagnostic[]
      readonly report: ProofReport
    }
