import type { EnergyParameters } from '../energy-parameters.js'
import { standardAtmosphere } from '../formulas/gas-expansion.js'
import { gases } from '../formulas/gases.js'
import type { Constant, Recipe } from './calculate.js'

/** Ratio of specific heats of air and nitrogen, as ASME PCC-2 article 501 takes it. */
const airHeatRatio = 1.4

/** The ambient pressure, absolute: as given, else the standard atmosphere. */
export function atmosphereOf({ quantities }: EnergyParameters): Constant {
  const given = quantities['atmosphere']
  // Only an absolute pressure says what the surroundings are.
  if (given?.reference === 'absolute') {
    return { name: 'atmosphere', symbol: 'P1', value: given.si, unit: 'Pa', source: `given: ${given.written}` }
  }
  const source = 'standard atmosphere, exact (CGPM 1954)'
  return { name: 'atmosphere', symbol: 'P1', value: standardAtmosphere, unit: 'Pa', source }
}

/** γ: as given, else of the gas that is named, else of air or nitrogen, and then marked as assumed. */
export function heatRatioOf({ quantities, gas }: EnergyParameters): Constant {
  const base = { name: 'heat-ratio', symbol: 'γ', unit: '' }
  const given = quantities['heat-ratio']
  if (given !== undefined && given.si > 1) return { ...base, value: given.si, source: `given: ${given.written}` }
  if (gas !== undefined) return { ...base, value: gases[gas].heatRatio, source: `${gas}: ${gases[gas].source}` }
  const source = 'air or nitrogen, as ASME PCC-2 article 501 takes it'
  return { ...base, value: airHeatRatio, source, assumed: true }
}

/** R of the gas that is named; undefined where none is. */
export function gasConstantOf({ gas }: EnergyParameters): Constant | undefined {
  if (gas === undefined) return undefined
  const { gasConstant, source } = gases[gas]
  return { name: 'gas-constant', symbol: 'R', value: gasConstant, unit: 'J/(kg·K)', source: `${gas}: ${source}` }
}

interface AbsolutePressure<Name extends 'pressure' | 'precharge' | 'safe-below'> {
  /** From the declared pressure to the absolute one. */
  readonly inside: (pressure: number) => number
  /** What the declared pressure is called in the formula. */
  readonly symbol: string
  /** The step that makes it absolute; its name is `inside`, or that of the parameter where there are several. */
  readonly steps: NonNullable<Recipe<Name>['steps']>
}

/** How a declared pressure becomes absolute: not at all where its unit says so, else by adding the ambient one. */
export function absolutePressure<Name extends 'pressure' | 'precharge' | 'safe-below'>(
  parameters: EnergyParameters,
  name: Name,
  symbol: string,
  atmosphere = atmosphereOf(parameters).value,
  as = 'inside'
): AbsolutePressure<Name> {
  const isAbsolute = parameters.quantities[name]?.reference === 'absolute'
  const inside = (pressure: number): number => (isAbsolute ? pressure : pressure + atmosphere)
  const declared = isAbsolute ? symbol : symbol.toLowerCase()
  return {
    inside,
    symbol: declared,
    steps: [
      {
        name: as,
        symbol,
        unit: 'Pa',
        expression: isAbsolute ? `{${name}}` : `{${name}} + {atmosphere}`,
        value: (values) => inside(values[name])
      }
    ]
  }
}
