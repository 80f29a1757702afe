import type { EnergyParameters } from '../energy-parameters.js'
import { batteryEnergyOf } from './battery.js'
import type { Calculation, Outcome } from './calculation.js'
import { bankEnergyOf, bankOpenResistorOf, bankTimeOf, isBank } from './capacitor-bank.js'
import {
  capacitorChargeOf,
  capacitorEnergyOf,
  capacitorResidueOf,
  capacitorTimeOf,
  magnetEnergyOf,
  magnetTimeOf
} from './electric.js'
import { gasEnergyOf, gasOtherEnergiesOf, gasPccOf } from './gas-energy.js'
import { gasTimeOf, gasVentingOf } from './gas-venting.js'
import {
  accumulatorEnergiesOf,
  accumulatorGasOf,
  accumulatorOilOf,
  columnEnergyOf,
  columnTimeOf,
  compressedLiquidOf,
  isAccumulator
} from './liquid.js'
import {
  coastDownOf,
  coastRevolutionsOf,
  frictionFromCoastDownOf,
  frictionTimeOf,
  gravityEnergyOf,
  rotatingEnergyOf,
  springEnergyOf,
  springPreloadOf,
  springReleaseOf
} from './mechanical.js'
import { coolingTimeOf } from './thermal.js'

/** All that can be reckoned of one source, and what cannot be and why. */
export interface SourceCalculations {
  /** The energy that the source is known by. */
  readonly energy: Outcome
  /** The time to wait for. */
  readonly time: Outcome
  /** Other figures: other methods, what is left at the safe level, what stays after it is drained. */
  readonly further: readonly Outcome[]
}

export function energyOf(parameters: EnergyParameters): Outcome {
  switch (parameters.kind) {
    case 'capacitor':
      return isBank(parameters) ? bankEnergyOf(parameters) : capacitorEnergyOf(parameters)
    case 'magnet':
      return magnetEnergyOf(parameters)
    case 'rotating':
      return rotatingEnergyOf(parameters)
    case 'gravity':
      return gravityEnergyOf(parameters)
    case 'spring':
      return springEnergyOf(parameters)
    case 'gas':
      return gasEnergyOf(parameters)
    case 'liquid':
      return liquidEnergyOf(parameters)
    case 'battery':
      return batteryEnergyOf(parameters)
    case 'electrical':
      return noEnergy('A supply stores nothing, and feeds whatever is connected to it.')
    case 'thermal':
      return {
        kind: 'not-computable',
        id: 'energy',
        title: 'Energy',
        missing: ['heat capacity, which no parameter gives']
      }
    case 'other':
      return noEnergy('No figure is given for this kind of source.')
  }
}

/** The longest time that it takes to its safe level by itself. */
export function timeOf(parameters: EnergyParameters): Outcome {
  switch (parameters.kind) {
    case 'capacitor':
      return isBank(parameters) ? bankTimeOf(parameters) : capacitorTimeOf(parameters)
    case 'magnet':
      return magnetTimeOf(parameters)
    case 'rotating':
      return coastingTimeOf(parameters)
    case 'gas':
      return gasTimeOf(parameters)
    case 'liquid':
      return liquidTimeOf(parameters)
    case 'thermal':
      return coolingTimeOf(parameters)
    case 'electrical':
      return never('A supply stores nothing: it is dead once it is isolated, and live until then.')
    case 'battery':
      return never('A battery keeps its charge however long the wait is.')
    case 'gravity':
      return never('A raised load stays dangerous until it is lowered or held.')
    case 'spring':
      return never('A loaded spring stays loaded until it is let out or held.')
    case 'other':
      return { kind: 'not-computable', id: 'time', title: 'Time', missing: ['a formula for this kind of source'] }
  }
}

export function sourceCalculations(parameters: EnergyParameters): SourceCalculations {
  return { energy: energyOf(parameters), time: timeOf(parameters), further: furtherOf(parameters) }
}

function furtherOf(parameters: EnergyParameters): readonly Outcome[] {
  const { kind, quantities } = parameters
  switch (kind) {
    case 'capacitor':
      return isBank(parameters)
        ? [bankOpenResistorOf(parameters)]
        : [capacitorChargeOf(parameters), capacitorResidueOf(parameters)]
    case 'rotating':
      return [
        ...(quantities['coast-down'] === undefined ? [] : [frictionFromCoastDownOf(parameters)]),
        ...(quantities['friction-torque'] === undefined
          ? []
          : [frictionTimeOf(parameters), coastRevolutionsOf(parameters)])
      ]
    case 'spring':
      return quantities['preload'] === undefined ? [] : [springReleaseOf(parameters), springPreloadOf(parameters)]
    case 'gas':
      return [...gasOtherEnergiesOf(parameters), ...gasPccOf(parameters), ...gasVentingOf(parameters)]
    case 'liquid':
      return isAccumulator(parameters)
        ? [...accumulatorEnergiesOf(parameters).slice(1), accumulatorOilOf(parameters), accumulatorGasOf(parameters)]
        : []
    case 'magnet':
    case 'gravity':
    case 'thermal':
    case 'battery':
    case 'electrical':
    case 'other':
      return []
  }
}

function liquidEnergyOf(parameters: EnergyParameters): Outcome {
  if (isAccumulator(parameters)) return accumulatorEnergiesOf(parameters)[0]
  // What made the pressure is not told by the pressure: the height of a column has to be said.
  return parameters.quantities['column-height'] === undefined
    ? compressedLiquidOf(parameters)
    : columnEnergyOf(parameters)
}

function liquidTimeOf(parameters: EnergyParameters): Outcome {
  if (parameters.quantities['column-height'] !== undefined) return columnTimeOf(parameters)
  const wanted = ['volume', 'bleed-bore', 'discharge-coefficient'].filter(
    (name) => parameters.quantities[name] === undefined
  )
  const missing = [...wanted, 'density of the liquid, which no parameter gives']
  return { kind: 'not-computable', id: 'liquid-time', title: 'Time to run out', missing }
}

/** Of a declared coast-down and the friction the longer counts: a maker's figure may be of a machine with new bearings. */
function coastingTimeOf(parameters: EnergyParameters): Outcome {
  const measured = coastDownOf(parameters)
  const byFriction = frictionTimeOf(parameters)
  return measured.kind === 'computed' ? longer(measured, byFriction) : byFriction
}

function longer(first: Outcome, second: Outcome): Outcome {
  const [one, other] = [computedOf(first), computedOf(second)]
  return one !== undefined && other !== undefined && other.worst > one.worst ? second : first
}

/** The calculation, where there is one. */
export function computedOf(outcome: Outcome): Calculation | undefined {
  return outcome.kind === 'computed' ? outcome.calculation : undefined
}

function noEnergy(why: string): Outcome {
  return { kind: 'no-formula', id: 'energy', title: 'Energy', why }
}

function never(why: string): Outcome {
  return { kind: 'never', id: 'time', title: 'Time', why }
}
