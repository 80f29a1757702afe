import { timeOf } from './calculations/source-calculations.js'
import type { EnergyParameters } from './energy-parameters.js'
import { type FormulaInput, formulaInputs } from './formula-input.js'

/** The longest time that a stored energy takes to fall to its safe level by itself. */
export type RelieveTime =
  | {
      readonly kind: 'computed'
      readonly seconds: number
      readonly formula: string
      /** The numbers that went in, each at the end of its tolerance that makes the time longest. */
      readonly inputs: readonly FormulaInput[]
      readonly source: string
    }
  /** Parameters that would have to be declared first; nothing is assumed in their place. */
  | { readonly kind: 'not-computable'; readonly missing: readonly string[] }
  /** Waiting never makes it safe; `why` is a full sentence. */
  | { readonly kind: 'not-decaying'; readonly why: string }

/** The time to wait for, in short; `sourceCalculations` shows the whole reckoning. */
export function relieveTime(parameters: EnergyParameters): RelieveTime {
  const outcome = timeOf(parameters)
  switch (outcome.kind) {
    case 'computed': {
      const { worst, formula, source } = outcome.calculation
      return { kind: 'computed', seconds: worst, formula, inputs: formulaInputs(outcome.calculation), source }
    }
    case 'not-computable':
      return { kind: 'not-computable', missing: outcome.missing }
    case 'never':
    case 'no-formula':
      return { kind: 'not-decaying', why: outcome.why }
  }
}
