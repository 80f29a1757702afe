import type { Diagnostic, NonEmpty } from '@lockwright/language'
import type { Machine } from '@lockwright/machine'

declare const proved: unique symbol

/** A machine whose obligations were all proven (or lawfully waived). Only `prove` gives one; runners take nothing else. */
export type ProvedMachine = Machine & { readonly [proved]: true }

/** `waived`: it fails, and the front matter says who answers for that; only obligations marked * can be. */
export type Outcome = 'holds' | 'fails' | 'does-not-arise' | 'waived' | 'undecided'

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
      /** Warnings: each place at which an obligation fails that is waived. */
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
