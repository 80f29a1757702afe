import type { EnergyParameters } from '../energy-parameters.js'
import { capacitorCharge, capacitorEnergy, magnetEnergy } from '../formulas/electric-store.js'
import { timeToReach } from '../formulas/exponential.js'
import { calculate } from './calculate.js'
import type { Outcome } from './calculation.js'

/** A capacitor on alternating voltage can be left at the crest of the wave, √2 times what a meter shows. */
export function storedVoltFactor({ quantities }: EnergyParameters): number {
  return quantities['voltage']?.current === 'ac' ? Math.SQRT2 : 1
}

const crestNote = 'On alternating voltage it can be left at the crest of the wave, √2 times what a meter shows.'

export function capacitorEnergyOf(parameters: EnergyParameters): Outcome {
  const factor = storedVoltFactor(parameters)
  return calculate(parameters, {
    id: 'capacitor-energy',
    title: 'Energy in the capacitor',
    symbol: 'E',
    dimension: 'energy',
    needs: {
      capacitance: { symbol: 'C', dimension: 'capacitance', effect: 'raises' },
      voltage: { symbol: 'V', dimension: 'voltage', effect: 'raises' }
    },
    expression: factor === 1 ? '½·{capacitance}·{voltage}²' : '½·{capacitance}·(√2·{voltage})²',
    evaluate: ({ capacitance, voltage }) => capacitorEnergy(capacitance, voltage * factor),
    source: 'OpenStax College Physics, module m42395',
    notes: factor === 1 ? [] : [crestNote]
  })
}

/** What is left in it at the moment it counts as safe. */
export function capacitorResidueOf(parameters: EnergyParameters): Outcome {
  return calculate(parameters, {
    id: 'capacitor-energy-at-safe-level',
    title: 'Energy left at the safe level',
    symbol: 'E',
    dimension: 'energy',
    needs: {
      capacitance: { symbol: 'C', dimension: 'capacitance', effect: 'raises' },
      'safe-below': { symbol: 'V', dimension: 'voltage', effect: 'raises' }
    },
    expression: '½·{capacitance}·{safe-below}²',
    evaluate: (values) => capacitorEnergy(values.capacitance, values['safe-below']),
    source: 'OpenStax College Physics, module m42395'
  })
}

export function capacitorChargeOf(parameters: EnergyParameters): Outcome {
  const factor = storedVoltFactor(parameters)
  return calculate(parameters, {
    id: 'capacitor-charge',
    title: 'Charge in the capacitor',
    symbol: 'Q',
    dimension: 'charge',
    needs: {
      capacitance: { symbol: 'C', dimension: 'capacitance', effect: 'raises' },
      voltage: { symbol: 'V', dimension: 'voltage', effect: 'raises' }
    },
    expression: factor === 1 ? '{capacitance}·{voltage}' : '{capacitance}·√2·{voltage}',
    evaluate: ({ capacitance, voltage }) => capacitorCharge(capacitance, voltage * factor),
    source: 'OpenStax College Physics, module m42395'
  })
}

export function capacitorTimeOf(parameters: EnergyParameters): Outcome {
  const factor = storedVoltFactor(parameters)
  return calculate(parameters, {
    id: 'capacitor-time',
    title: 'Time to the safe voltage',
    symbol: 't',
    dimension: 'time',
    needs: {
      bleed: { symbol: 'R', dimension: 'resistance', effect: 'raises' },
      capacitance: { symbol: 'C', dimension: 'capacitance', effect: 'raises' },
      voltage: { symbol: 'V0', dimension: 'voltage', effect: 'raises' },
      'safe-below': { symbol: 'V', dimension: 'voltage', effect: 'lowers' }
    },
    expression:
      factor === 1
        ? '{bleed}·{capacitance}·ln({voltage}/{safe-below})'
        : '{bleed}·{capacitance}·ln(√2·{voltage}/{safe-below})',
    evaluate: (values) => timeToReach(values.bleed * values.capacitance, values.voltage * factor, values['safe-below']),
    whyNever: () => 'A capacitor never falls to exactly 0 V: a safe level above that is needed.',
    source: 'RC discharge: OpenStax College Physics, module m42363',
    notes: [
      ...(factor === 1 ? [] : [crestNote]),
      'It holds while the bleed resistor is whole: with that open the voltage stays, so only a measured voltage is proof.'
    ]
  })
}

export function magnetEnergyOf(parameters: EnergyParameters): Outcome {
  return calculate(parameters, {
    id: 'magnet-energy',
    title: 'Energy in the magnetic field',
    symbol: 'E',
    dimension: 'energy',
    needs: {
      inductance: { symbol: 'L', dimension: 'inductance', effect: 'raises' },
      current: { symbol: 'I', dimension: 'current', effect: 'raises' }
    },
    expression: '½·{inductance}·{current}²',
    evaluate: ({ inductance, current }) => magnetEnergy(inductance, current),
    source: 'OpenStax College Physics, module m42420'
  })
}

const closedCircuit =
  'The current runs on through a closed circuit of this resistance; where that is opened, the voltage rises until it arcs.'

export function magnetTimeOf(parameters: EnergyParameters): Outcome {
  // A safe level is known for a magnet only where it is declared, as a current or as an energy: there is no default.
  if (parameters.quantities['safe-below']?.dimension === 'energy') return magnetTimeToEnergy(parameters)
  return calculate(parameters, {
    id: 'magnet-time',
    title: 'Time to the safe current',
    symbol: 't',
    dimension: 'time',
    needs: {
      inductance: { symbol: 'L', dimension: 'inductance', effect: 'raises' },
      resistance: { symbol: 'R', dimension: 'resistance', effect: 'lowers' },
      current: { symbol: 'I0', dimension: 'current', effect: 'raises' },
      'safe-below': { symbol: 'I', dimension: 'current', effect: 'lowers' }
    },
    expression: '({inductance}/{resistance})·ln({current}/{safe-below})',
    evaluate: (values) => timeToReach(values.inductance / values.resistance, values.current, values['safe-below']),
    whyNever: ({ resistance }) =>
      resistance > 0
        ? 'The current never falls to exactly 0 A: a safe level above that is needed.'
        : 'With no resistance in its circuit the current does not fall.',
    source: 'RL decay: OpenStax College Physics, module m42425',
    notes: [closedCircuit]
  })
}

function magnetTimeToEnergy(parameters: EnergyParameters): Outcome {
  return calculate(parameters, {
    id: 'magnet-time',
    title: 'Time to the safe energy',
    symbol: 't',
    dimension: 'time',
    needs: {
      inductance: { symbol: 'L', dimension: 'inductance', effect: 'raises' },
      resistance: { symbol: 'R', dimension: 'resistance', effect: 'lowers' },
      current: { symbol: 'I0', dimension: 'current', effect: 'raises' },
      'safe-below': { symbol: 'E', dimension: 'energy', effect: 'lowers' }
    },
    steps: [
      {
        name: 'stored',
        symbol: 'E0',
        unit: 'J',
        expression: '½·{inductance}·{current}²',
        value: ({ inductance, current }) => magnetEnergy(inductance, current)
      }
    ],
    expression: '½·({inductance}/{resistance})·ln({stored}/{safe-below})',
    evaluate: (values) =>
      timeToReach(
        values.inductance / values.resistance / 2,
        magnetEnergy(values.inductance, values.current),
        values['safe-below']
      ),
    whyNever: ({ resistance }) =>
      resistance > 0
        ? 'The energy never falls to exactly 0 J: a safe level above that is needed.'
        : 'With no resistance in its circuit the current does not fall.',
    source:
      'RL decay: OpenStax College Physics, module m42425; the energy falls twice as fast (University Physics, m58752)',
    notes: [closedCircuit]
  })
}
