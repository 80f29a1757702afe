import type { Calculation } from './calculations/calculation.js'

/** One number that went into a formula, in the coherent SI unit. */
export interface FormulaInput {
  /** As in the front matter, or what it is where it is a constant. */
  readonly name: string
  readonly value: number
  readonly unit: string
}

/** The inputs of a calculation at the ends that make its result worst. */
export function formulaInputs({ inputs }: Calculation): readonly FormulaInput[] {
  return inputs.map(({ name, used, unit }) => ({ name, value: used, unit }))
}
