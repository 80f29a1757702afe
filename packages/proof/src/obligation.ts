import type { About, Condition, Ledger, Machine, Span, State } from '@lockwright/machine'
import type { Undone } from './undone.js'

/** Where and how an obligation is not kept; `span` is the smallest stretch of the procedure's source. */
export interface Finding {
  readonly span: Span
  readonly what: string
  readonly mend: string
  readonly related: readonly { readonly span: Span; readonly note: string }[]
}

/**
 * Everything that failed one obligation at one place: over all reachable configurations, each thing once.
 * The path that is shown leads to the first of them.
 */
export interface Failure {
  readonly machine: Machine
  readonly state: State
  /** What was at fault, in the order of the machine's declarations; the condition is the one that was not met. */
  readonly faults: readonly { readonly about: About; readonly condition: Condition }[]
  /** The ledger before the step, on the way that is shown. */
  readonly ledger: Ledger
  /** What was true before on the way that is shown, with the step that undid it. */
  readonly undone: Undone
}

export type Check =
  /** Every need that bears this id holds in every reachable configuration. */
  | {
      readonly kind: 'needs'
      readonly what: (failure: Failure) => string
      readonly mend: (failure: Failure) => string
    }
  /** Read off the machine, without exploring. */
  | { readonly kind: 'declared'; readonly find: (machine: Machine) => Declared }
  /** Needs and declarations together: `left-on`. */
  | {
      readonly kind: 'needs-and-declared'
      readonly what: (failure: Failure) => string
      readonly mend: (failure: Failure) => string
      readonly find: (machine: Machine) => Declared
    }
  /** About the graph of reachable configurations as a whole. */
  | { readonly kind: 'graph'; readonly find: (graph: ReachableGraph) => Declared }

/** `arises` false: the machine holds nothing that the obligation speaks of. */
export interface Declared {
  readonly arises: boolean
  readonly findings: readonly Finding[]
}

/** What graph obligations may ask; states by their index in the machine. */
export interface ReachableGraph {
  readonly machine: Machine
  /** Whether any configuration stands in the state. */
  readonly reached: (stateIndex: number) => boolean
  /** States with a configuration from which no stop and no finish can be reached, in order. */
  readonly stuck: readonly number[]
}

/** One safety rule. Its page is `obligations/<id>.md`, beside the file that holds it. */
export interface Obligation {
  readonly id: string
  /** What must hold, as one clause. */
  readonly statement: string
  /** Paragraphs of the standards, or `common practice`. */
  readonly sources: readonly string[]
  /** What can happen to a person where it does not hold, as one sentence. */
  readonly danger: string
  /** Marked * in the contract. */
  readonly waivable: boolean
  readonly check: Check
}
