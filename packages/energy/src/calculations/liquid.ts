import type { EnergyParameters } from '../energy-parameters.js'
import { accumulatorOilEnergy, accumulatorOilVolume, worstPrecharge } from '../formulas/accumulator.js'
import { isentropicEnergy } from '../formulas/gas-expansion.js'
import { columnDrainTime, columnEnergy, compressedLiquidEnergy } from '../formulas/liquid-store.js'
import { standardGravity } from '../formulas/mechanical-store.js'
import { calculate } from './calculate.js'
import type { Outcome } from './calculation.js'
import { absolutePressure, atmosphereOf, heatRatioOf } from './gas-inputs.js'

/** True for a liquid that stands against a gas in a vessel. */
export function isAccumulator({ kind, quantities }: EnergyParameters): boolean {
  return kind === 'liquid' && (quantities['gas-volume'] !== undefined || quantities['precharge'] !== undefined)
}

const vessel = { symbol: 'V0', dimension: 'volume', effect: 'raises' } as const

/** The exponent of a fast change, as suppliers of accumulators take it. */
const fastExponent = 1.4

/** What pushes the oil out, slow (the larger figure) and fast. */
export function accumulatorEnergiesOf(parameters: EnergyParameters): readonly [Outcome, Outcome] {
  const of = (exponent: number, id: string, title: string, expression: string): Outcome => {
    const { value } = atmosphereOf(parameters)
    const charged = absolutePressure(parameters, 'pressure', 'P', value, 'charged')
    const empty = absolutePressure(parameters, 'precharge', 'P0', value, 'empty')
    return calculate(parameters, {
      id,
      title,
      symbol: 'E',
      dimension: 'energy',
      needs: {
        pressure: { symbol: charged.symbol, dimension: 'pressure', effect: 'raises' },
        precharge: {
          symbol: empty.symbol,
          dimension: 'pressure',
          effect: 'mixed',
          turn: ({ pressure }) => worstPrecharge(charged.inside(pressure), exponent) - empty.inside(0)
        },
        'gas-volume': vessel
      },
      constants: [atmosphereOf(parameters)],
      steps: [...charged.steps, ...empty.steps],
      expression,
      evaluate: (values) =>
        accumulatorOilEnergy(
          values['gas-volume'],
          empty.inside(values.precharge),
          charged.inside(values.pressure),
          exponent
        ),
      source: 'gas work between two states of P·Vⁿ = constant; form from memory, standard',
      notes: ['What pushes the oil out; the gas keeps its precharge when the oil is gone.']
    })
  }
  return [
    of(
      1,
      'accumulator-oil-energy',
      'Energy that the gas gives to the oil, slow',
      '{empty}·{gas-volume}·ln({charged}/{empty})'
    ),
    of(
      fastExponent,
      'accumulator-oil-energy-fast',
      'Energy that the gas gives to the oil, fast (n = 1.4)',
      '({charged}·{gas-volume}·({empty}/{charged})^(1/1.4) − {empty}·{gas-volume})/(1.4 − 1)'
    )
  ]
}

/** How much oil comes out. */
export function accumulatorOilOf(parameters: EnergyParameters): Outcome {
  const { value } = atmosphereOf(parameters)
  const charged = absolutePressure(parameters, 'pressure', 'P', value, 'charged')
  const empty = absolutePressure(parameters, 'precharge', 'P0', value, 'empty')
  return calculate(parameters, {
    id: 'accumulator-oil',
    title: 'Oil in the accumulator',
    symbol: 'ΔV',
    dimension: 'volume',
    needs: {
      pressure: { symbol: charged.symbol, dimension: 'pressure', effect: 'raises' },
      precharge: { symbol: empty.symbol, dimension: 'pressure', effect: 'lowers' },
      'gas-volume': vessel
    },
    constants: [atmosphereOf(parameters)],
    steps: [...charged.steps, ...empty.steps],
    expression: '{gas-volume}·(1 − {empty}/{charged})',
    evaluate: (values) =>
      accumulatorOilVolume(values['gas-volume'], empty.inside(values.precharge), charged.inside(values.pressure), 1),
    source: "an accumulator sizing page, n = 1 (Boyle's law)"
  })
}

/** The precharge gas that stays when the oil is drained. */
export function accumulatorGasOf(parameters: EnergyParameters): Outcome {
  const atmosphere = atmosphereOf(parameters)
  const heatRatio = heatRatioOf(parameters)
  const empty = absolutePressure(parameters, 'precharge', 'P0', atmosphere.value)
  return calculate(parameters, {
    id: 'accumulator-precharge-energy',
    title: 'Energy of the precharge gas that stays when the oil is drained',
    symbol: 'E',
    dimension: 'energy',
    needs: { precharge: { symbol: empty.symbol, dimension: 'pressure', effect: 'raises' }, 'gas-volume': vessel },
    constants: [atmosphere, heatRatio],
    steps: empty.steps,
    expression:
      '{inside}·{gas-volume}/({heat-ratio} − 1)·(1 − ({atmosphere}/{inside})^(({heat-ratio} − 1)/{heat-ratio}))',
    evaluate: (values) =>
      isentropicEnergy(empty.inside(values.precharge), values['gas-volume'], atmosphere.value, heatRatio.value),
    source: 'Understanding Explosions, appendix B',
    notes: [
      'Draining the oil does not touch it: no work on the vessel or its gas valve before the gas itself is let out.'
    ]
  })
}

/** A shut-in liquid without gas: small, and gone with the first drops, but nothing without the bulk modulus. */
export function compressedLiquidOf(parameters: EnergyParameters): Outcome {
  return calculate(parameters, {
    id: 'liquid-compression-energy',
    title: 'Energy of the squeezed liquid',
    symbol: 'E',
    dimension: 'energy',
    needs: {
      pressure: { symbol: 'p', dimension: 'pressure', effect: 'raises' },
      volume: { symbol: 'V', dimension: 'volume', effect: 'raises' },
      'bulk-modulus': { symbol: 'K', dimension: 'pressure', effect: 'lowers' }
    },
    expression: '½·{pressure}²·{volume}/{bulk-modulus}',
    evaluate: (values) => compressedLiquidEnergy(values.volume, values.pressure, values['bulk-modulus']),
    source: 'bulk stress and strain: OpenStax University Physics, module m58342',
    notes: ['Of the liquid alone: hoses that have swollen and trapped air hold more.']
  })
}

/** Right only where the pressure comes from liquid that stands above; then it needs no density. */
export function columnEnergyOf(parameters: EnergyParameters): Outcome {
  return calculate(parameters, {
    id: 'liquid-column-energy',
    title: 'Energy of the standing column',
    symbol: 'E',
    dimension: 'energy',
    needs: {
      pressure: { symbol: 'p', dimension: 'pressure', effect: 'raises' },
      volume: { symbol: 'V', dimension: 'volume', effect: 'raises' }
    },
    expression: '½·{pressure}·{volume}',
    evaluate: ({ volume, pressure }) => columnEnergy(volume, pressure),
    source: 'potential energy m·g·h/2 with p = ρ·g·h: OpenStax University Physics, module m58351, from memory',
    notes: [
      'For an upright column of even width whose own weight makes the pressure; liquid that stands in a tank at the top holds up to twice this.'
    ]
  })
}

export function columnTimeOf(parameters: EnergyParameters): Outcome {
  const remaining = (height: number, pressure: number, safe: number): number => (height * safe) / pressure
  return calculate(parameters, {
    id: 'liquid-column-time',
    title: 'Time for the standing column to run down',
    symbol: 't',
    dimension: 'time',
    needs: {
      pressure: { symbol: 'p', dimension: 'pressure', effect: 'raises' },
      volume: { symbol: 'V', dimension: 'volume', effect: 'raises' },
      'column-height': { symbol: 'h', dimension: 'length', effect: 'lowers' },
      'bleed-bore': { symbol: 'd', dimension: 'length', effect: 'lowers' },
      'discharge-coefficient': { symbol: 'Cd', dimension: 'number', effect: 'lowers' },
      'safe-below': { symbol: 'ps', dimension: 'pressure', effect: 'lowers' }
    },
    constants: [
      { name: 'g', symbol: 'g', value: standardGravity, unit: 'm/s²', source: 'conventional value, exact (CGPM 1901)' }
    ],
    steps: [
      {
        name: 'area',
        symbol: 'A',
        unit: 'm²',
        expression: 'π·{bleed-bore}²/4',
        value: (values) => (Math.PI / 4) * values['bleed-bore'] ** 2
      },
      {
        name: 'left',
        symbol: 'h1',
        unit: 'm',
        expression: '{column-height}·{safe-below}/{pressure}',
        value: (values) => remaining(values['column-height'], values.pressure, values['safe-below'])
      }
    ],
    expression: '{volume}/({column-height}·{discharge-coefficient}·{area})·√(2/{g})·(√{column-height} − √{left})',
    evaluate: (values) =>
      columnDrainTime(
        {
          volume: values.volume,
          height: values['column-height'],
          area: (Math.PI / 4) * values['bleed-bore'] ** 2,
          dischargeCoefficient: values['discharge-coefficient']
        },
        remaining(values['column-height'], values.pressure, values['safe-below'])
      ),
    whyNever: () => 'With nothing open the column does not run down.',
    source: "Torricelli's theorem: OpenStax College Physics, module m42210, from memory"
  })
}
