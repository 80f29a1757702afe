import type { EnergyParameters } from '../energy-parameters.js'
import { capacitorEnergy } from '../formulas/electric-store.js'
import { timeToReach } from '../formulas/exponential.js'
import { calculate } from './calculate.js'
import type { Outcome } from './calculation.js'
import { storedVoltFactor } from './electric.js'

/** True for a capacitor that is declared by its elements: n positions in series, m elements in parallel at each. */
export function isBank({ kind, quantities }: EnergyParameters): boolean {
  return kind === 'capacitor' && quantities['element-capacitance'] !== undefined
}

const series = { symbol: 'n', dimension: 'number', effect: 'lowers' } as const
const parallel = { symbol: 'm', dimension: 'number', effect: 'raises' } as const
const element = { symbol: 'Ce', dimension: 'capacitance', effect: 'raises' } as const

export function bankEnergyOf(parameters: EnergyParameters): Outcome {
  const factor = storedVoltFactor(parameters)
  return calculate(parameters, {
    id: 'bank-energy',
    title: 'Energy in the capacitor bank',
    symbol: 'E',
    dimension: 'energy',
    needs: {
      'element-capacitance': element,
      series,
      parallel,
      voltage: { symbol: 'V', dimension: 'voltage', effect: 'raises' }
    },
    steps: [
      {
        name: 'whole',
        symbol: 'C',
        unit: 'F',
        expression: '{parallel}·{element-capacitance}/{series}',
        value: (values) => bankCapacitance(values['element-capacitance'], values.series, values.parallel)
      }
    ],
    expression: factor === 1 ? '½·{whole}·{voltage}²' : '½·{whole}·(√2·{voltage})²',
    evaluate: (values) =>
      capacitorEnergy(
        bankCapacitance(values['element-capacitance'], values.series, values.parallel),
        values.voltage * factor
      ),
    source: 'capacitors in series and in parallel: OpenStax University Physics, module m58449, from memory'
  })
}

export function bankCapacitance(elementCapacitance: number, inSeries: number, inParallel: number): number {
  return (elementCapacitance * inParallel) / inSeries
}

/**
 * Every position empties through its own resistor, so the slowest position bounds the whole: this holds for unequal
 * elements as well, which a resistance across the whole bank does not.
 */
export function bankTimeOf(parameters: EnergyParameters): Outcome {
  const factor = storedVoltFactor(parameters)
  return calculate(parameters, {
    id: 'bank-time',
    title: 'Time to the safe voltage through the balancing resistors',
    symbol: 't',
    dimension: 'time',
    needs: {
      balancing: { symbol: 'Rb', dimension: 'resistance', effect: 'raises' },
      parallel,
      'element-capacitance': element,
      voltage: { symbol: 'V0', dimension: 'voltage', effect: 'raises' },
      'safe-below': { symbol: 'V', dimension: 'voltage', effect: 'lowers' }
    },
    steps: [
      {
        name: 'constant',
        symbol: 'τ',
        unit: 's',
        expression: '{balancing}·{parallel}·{element-capacitance}',
        value: (values) => values.balancing * values.parallel * values['element-capacitance']
      }
    ],
    expression: factor === 1 ? '{constant}·ln({voltage}/{safe-below})' : '{constant}·ln(√2·{voltage}/{safe-below})',
    evaluate: (values) =>
      timeToReach(
        values.balancing * values.parallel * values['element-capacitance'],
        values.voltage * factor,
        values['safe-below']
      ),
    whyNever: () => 'A capacitor never falls to exactly 0 V: a safe level above that is needed.',
    source: 'RC discharge: OpenStax College Physics, module m42363, for each position by itself',
    notes: [
      'A bleed resistor across the whole bank is not counted: with unequal elements it can leave the ends at nothing while positions hold opposite voltages.',
      'Test every position as well as the ends.'
    ]
  })
}

/** What one position keeps for good when its balancing resistor is open. */
export function bankOpenResistorOf(parameters: EnergyParameters): Outcome {
  const factor = storedVoltFactor(parameters)
  return calculate(parameters, {
    id: 'bank-open-resistor',
    title: 'Voltage that stays at a position whose balancing resistor is open',
    symbol: 'V1',
    dimension: 'voltage',
    needs: { voltage: { symbol: 'V', dimension: 'voltage', effect: 'raises' }, series },
    expression: factor === 1 ? '{voltage}/{series}' : '√2·{voltage}/{series}',
    evaluate: (values) => (values.voltage * factor) / values.series,
    source: 'equal shares in series: OpenStax University Physics, module m58449, from memory',
    notes: ['It is at least an equal share; with unequal shares the largest stays.']
  })
}
