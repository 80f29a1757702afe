import type { EnergyParameters } from './energy-parameters.js'
import { type End, type FormulaInput, gather, storedVoltFactor } from './formula-input.js'
import type { Dimension } from './quantity.js'

/** How much energy a source holds, over the tolerances of its parameters. */
export type StoredEnergy =
  | {
      readonly kind: 'computed'
      readonly joules: { readonly low: number; readonly high: number }
      readonly formula: string
      /** Parameters at their upper ends, and the constants that went in. */
      readonly inputs: readonly FormulaInput[]
      readonly source: string
    }
  | { readonly kind: 'not-computable'; readonly missing: readonly string[] }
  /** No figure is given for this kind of source; `why` is a full sentence. */
  | { readonly kind: 'no-formula'; readonly why: string }

/** Conventional standard acceleration of free fall, exact (CGPM 1901), m/s². */
export const standardGravity = 9.80665
/** Standard atmosphere, exact (CGPM 1954), Pa. */
export const standardAtmosphere = 101_325
/** Ratio of specific heats of air and nitrogen, as ASME PCC-2 article 501 takes it. */
const heatRatio = 1.4

export function storedEnergy(parameters: EnergyParameters): StoredEnergy {
  switch (parameters.kind) {
    case 'capacitor': {
      const factor = storedVoltFactor(parameters.quantities['voltage'])
      return evaluate(parameters, {
        needs: { capacitance: 'capacitance', voltage: 'voltage' },
        joules: ({ capacitance, voltage }) => 0.5 * capacitance * (voltage * factor) ** 2,
        formula: factor === 1 ? 'E = ½·C·V²' : 'E = ½·C·(√2·V)²',
        source: 'OpenStax College Physics, module m42395'
      })
    }
    case 'magnet':
      return evaluate(parameters, {
        needs: { inductance: 'inductance', current: 'current' },
        joules: ({ inductance, current }) => 0.5 * inductance * current ** 2,
        formula: 'E = ½·L·I²',
        source: 'OpenStax College Physics, module m42420'
      })
    case 'rotating':
      return evaluate(parameters, {
        needs: { inertia: 'inertia', speed: 'angular-speed' },
        joules: ({ inertia, speed }) => 0.5 * inertia * speed ** 2,
        formula: 'E = ½·I·ω²',
        source: 'OpenStax College Physics, module m42180'
      })
    case 'gravity':
      return evaluate(parameters, {
        needs: { mass: 'mass', height: 'length' },
        joules: ({ mass, height }) => mass * standardGravity * height,
        formula: 'E = m·g·h',
        source: 'OpenStax College Physics, module m42152',
        constants: [{ name: 'g', value: standardGravity, unit: 'm/s²' }]
      })
    case 'spring':
      return springEnergy(parameters)
    case 'gas':
      return evaluate(parameters, {
        needs: { pressure: 'pressure', volume: 'volume' },
        joules: ({ pressure, volume }) => isentropicEnergy(pressure, volume, parameters),
        formula: 'isentropic: E = P2·V/(γ−1)·(1 − (P1/P2)^((γ−1)/γ))',
        source: 'Understanding Explosions, appendix B; ASME PCC-2 article 501, general form',
        constants: [
          { name: 'γ, air or nitrogen', value: heatRatio, unit: '' },
          { name: 'P1, standard atmosphere', value: standardAtmosphere, unit: 'Pa' }
        ]
      })
    case 'electrical':
      return { kind: 'no-formula', why: 'A supply stores nothing, and feeds whatever is connected to it.' }
    case 'battery':
    case 'liquid':
    case 'thermal':
    case 'other':
      return { kind: 'no-formula', why: 'No figure is given for this kind of source.' }
  }
}

/** Of gas that expands to the standard atmosphere; gas at or below it does no work on its surroundings. */
function isentropicEnergy(pressure: number, volume: number, { quantities }: EnergyParameters): number {
  const inside = quantities['pressure']?.reference === 'absolute' ? pressure : pressure + standardAtmosphere
  if (inside <= standardAtmosphere) return 0
  const left = (standardAtmosphere / inside) ** ((heatRatio - 1) / heatRatio)
  return ((inside * volume) / (heatRatio - 1)) * (1 - left)
}

/**
 * `deflection` is reckoned from the unloaded length. A `preload` (a length from there too, or a force) is what the
 * spring keeps when it is let out to its stop: the figure is what it gives up on the way, not what it still holds.
 */
function springEnergy(parameters: EnergyParameters): StoredEnergy {
  const { preload } = parameters.quantities
  const source = 'OpenStax University Physics, module m58312'
  if (preload === undefined) {
    return evaluate(parameters, {
      needs: { rate: 'force-per-length', deflection: 'length' },
      joules: ({ rate, deflection }) => 0.5 * rate * deflection ** 2,
      formula: 'E = ½·k·x²',
      source
    })
  }
  const byForce = preload.dimension === 'force'
  return evaluate(parameters, {
    needs: { rate: 'force-per-length', deflection: 'length', preload: byForce ? 'force' : 'length' },
    // The largest energy goes with the smallest preload.
    falling: 'preload',
    joules: ({ rate, deflection, preload: kept }) =>
      Math.max(0, 0.5 * rate * (deflection ** 2 - (byForce ? kept / rate : kept) ** 2)),
    formula: byForce ? 'E = ½·k·(x² − (F/k)²)' : 'E = ½·k·(x2² − x1²)',
    source
  })
}

interface Formula<Name extends string> {
  readonly needs: Readonly<Record<Name, Dimension>>
  readonly joules: (values: Readonly<Record<Name, number>>) => number
  /** The one parameter that makes the energy smaller as it grows. */
  readonly falling?: NoInfer<Name>
  readonly formula: string
  readonly source: string
  readonly constants?: readonly FormulaInput[]
}

/** The formula at both ends of every parameter's tolerance. */
function evaluate<Name extends string>(parameters: EnergyParameters, formula: Formula<Name>): StoredEnergy {
  const at = (end: End) => {
    const other = end === 'low' ? 'high' : 'low'
    const needs = Object.entries<Dimension>(formula.needs).map(
      ([name, dimension]) => [name, [dimension, name === formula.falling ? other : end]] as const
    )
    return gather(parameters, Object.fromEntries(needs) as Record<Name, readonly [Dimension, End]>)
  }
  const low = at('low')
  const high = at('high')
  if (low.kind === 'missing') return { kind: 'not-computable', missing: low.names }
  if (high.kind === 'missing') return { kind: 'not-computable', missing: high.names }
  return {
    kind: 'computed',
    joules: { low: formula.joules(low.values), high: formula.joules(high.values) },
    formula: formula.formula,
    inputs: [...high.inputs, ...(formula.constants ?? [])],
    source: formula.source
  }
}
