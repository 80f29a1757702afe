import { energyOf } from './calculations/source-calculations.js'
import type { EnergyParameters } from './energy-parameters.js'
import type { FormulaInput } from './formula-input.js'
import { formulaInputs } from './formula-input.js'

/** How much energy a source holds, over the tolerances of its parameters. */
export type StoredEnergy =
  | {
      readonly kind: 'computed'
      readonly joules: { readonly low: number; readonly high: number }
      readonly formula: string
      /** Parameters at the ends that make it largest, and the constants that went in. */
      readonly inputs: readonly FormulaInput[]
      readonly source: string
    }
  | { readonly kind: 'not-computable'; readonly missing: readonly string[] }
  /** No figure is given for this kind of source; `why` is a full sentence. */
  | { readonly kind: 'no-formula'; readonly why: string }

/** The energy that a source is known by, in short; `sourceCalculations` shows the whole reckoning. */
export function storedEnergy(parameters: EnergyParameters): StoredEnergy {
  const outcome = energyOf(parameters)
  switch (outcome.kind) {
    case 'computed': {
      const { result, formula, source } = outcome.calculation
      return { kind: 'computed', joules: result, formula, inputs: formulaInputs(outcome.calculation), source }
    }
    case 'not-computable':
      return { kind: 'not-computable', missing: outcome.missing }
    case 'no-formula':
    case 'never':
      return { kind: 'no-formula', why: outcome.why }
  }
}
