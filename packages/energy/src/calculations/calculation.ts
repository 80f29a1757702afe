import type { Dimension } from '../quantity.js'

export interface Interval {
  readonly low: number
  readonly high: number
}

/** One number that goes into a formula, in the coherent SI unit. */
export interface CalculationInput {
  /** As in the front matter, or what it is where it is a constant. */
  readonly name: string
  readonly symbol: string
  readonly unit: string
  readonly interval: Interval
  /** The value that makes the result worst. */
  readonly used: number
  /** `default`: of the language, for this kind of source. `assumed`: said in the notes, and to be given instead. */
  readonly origin: 'declared' | 'default' | 'constant' | 'assumed'
  /** Exactly as the author wrote it. */
  readonly written?: string
  /** Where a constant stands. */
  readonly source?: string
}

/** A value on the way to the result, in the worst case. */
export interface CalculationStep {
  readonly symbol: string
  readonly unit: string
  readonly formula: string
  readonly substitution: string
  readonly value: number
}

/** A result that can be checked by hand: what went in, by which formula, and over which range it may lie. */
export interface Calculation {
  readonly id: string
  readonly title: string
  /** What the result is. */
  readonly dimension: Dimension
  /** The coherent SI unit of the result. */
  readonly unit: string
  readonly formula: string
  readonly inputs: readonly CalculationInput[]
  readonly steps: readonly CalculationStep[]
  /** The formula with the worst-case numbers in it, and its result. */
  readonly substitution: string
  /** Over the tolerances of all inputs. */
  readonly result: Interval
  /** The end of the interval that counts: the largest energy, the longest time. */
  readonly worst: number
  readonly source: string
  /** Full sentences: what was taken for granted and where the formula ends. */
  readonly notes: readonly string[]
}

/** What came of one calculation. */
export type Outcome =
  | { readonly kind: 'computed'; readonly calculation: Calculation }
  /** Parameters that would have to be declared first; nothing is assumed in their place. */
  | {
      readonly kind: 'not-computable'
      readonly id: string
      readonly title: string
      readonly missing: readonly string[]
    }
  /** Waiting never brings it there; `why` is a full sentence. */
  | { readonly kind: 'never'; readonly id: string; readonly title: string; readonly why: string }
  /** There is nothing to reckon for this kind of source; `why` is a full sentence. */
  | { readonly kind: 'no-formula'; readonly id: string; readonly title: string; readonly why: string }
