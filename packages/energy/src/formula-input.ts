import { dimensionFacts } from './dimensions.js'
import { type EnergyParameters, safeBelow } from './energy-parameters.js'
import type { Dimension, Quantity } from './quantity.js'

/** One number that went into a formula, in the coherent SI unit. */
export interface FormulaInput {
  /** As in the front matter, or what it is where it is a constant. */
  readonly name: string
  readonly value: number
  readonly unit: string
}

/** Which end of the tolerance a formula needs. */
export type End = 'low' | 'high'

type Gathered<Name extends string> =
  | { readonly kind: 'missing'; readonly names: readonly string[] }
  | {
      readonly kind: 'found'
      readonly values: Readonly<Record<Name, number>>
      readonly inputs: readonly FormulaInput[]
    }

/** All parameters that a formula needs, each at the end asked for, or the names of those that are not there. */
export function gather<Name extends string>(
  parameters: EnergyParameters,
  needs: Readonly<Record<Name, readonly [Dimension, End]>>
): Gathered<Name> {
  const inputs: FormulaInput[] = []
  const names: string[] = []
  for (const [name, [dimension, end]] of Object.entries(needs) as [Name, readonly [Dimension, End]][]) {
    const quantity = name === 'safe-below' ? safeBelow(parameters) : parameters.quantities[name]
    // A quantity of another dimension is no use to the formula: as good as not declared.
    if (quantity === undefined || quantity.dimension !== dimension) names.push(name)
    else inputs.push({ name, value: quantity.interval[end], unit: dimensionFacts[dimension].unit })
  }
  if (names.length > 0) return { kind: 'missing', names }
  const values = Object.fromEntries(inputs.map(({ name, value }) => [name, value])) as Record<Name, number>
  return { kind: 'found', values, inputs }
}

/** A capacitor on alternating voltage can be left at the crest of the wave, √2 times what a meter shows. */
export function storedVoltFactor(voltage: Quantity | undefined): number {
  return voltage?.current === 'ac' ? Math.SQRT2 : 1
}
