import type { EnergyParameters } from '../energy-parameters.js'
import {
  coastRevolutions,
  coastTime,
  gravityEnergy,
  rotatingEnergy,
  springEnergy,
  standardGravity
} from '../formulas/mechanical-store.js'
import { calculate } from './calculate.js'
import type { Outcome } from './calculation.js'

const inertia = { symbol: 'I', dimension: 'inertia', effect: 'raises' } as const

export function rotatingEnergyOf(parameters: EnergyParameters): Outcome {
  return calculate(parameters, {
    id: 'rotating-energy',
    title: 'Energy of the turning mass',
    symbol: 'E',
    dimension: 'energy',
    needs: { inertia, speed: { symbol: 'ω', dimension: 'angular-speed', effect: 'raises' } },
    expression: '½·{inertia}·{speed}²',
    evaluate: (values) => rotatingEnergy(values.inertia, values.speed),
    source: 'OpenStax College Physics, module m42180'
  })
}

export function frictionTimeOf(parameters: EnergyParameters): Outcome {
  return calculate(parameters, {
    id: 'friction-time',
    title: 'Coast-down against a constant friction torque',
    symbol: 't',
    dimension: 'time',
    needs: {
      inertia,
      speed: { symbol: 'ω0', dimension: 'angular-speed', effect: 'raises' },
      'friction-torque': { symbol: 'M', dimension: 'torque', effect: 'lowers' },
      'safe-below': { symbol: 'ω', dimension: 'angular-speed', effect: 'lowers' }
    },
    expression: '{inertia}·({speed} − {safe-below})/{friction-torque}',
    evaluate: (values) => coastTime(values.inertia, values.speed, values['safe-below'], values['friction-torque']),
    whyNever: () => 'With no friction the rotor does not slow down.',
    source: 'rotational dynamics: OpenStax College Physics, module m42180'
  })
}

export function coastDownOf(parameters: EnergyParameters): Outcome {
  return calculate(parameters, {
    id: 'coast-down',
    title: 'Coast-down as measured',
    symbol: 't',
    dimension: 'time',
    needs: { 'coast-down': { symbol: 'coast-down', dimension: 'time', effect: 'raises' } },
    expression: '{coast-down}',
    evaluate: (values) => values['coast-down'],
    source: 'declared for this machine',
    notes: ['A time measured on a loaded or stiff machine is too short for one that runs freely.']
  })
}

/** The mean torque that a measured coast-down stands for. */
export function frictionFromCoastDownOf(parameters: EnergyParameters): Outcome {
  return calculate(parameters, {
    id: 'friction-from-coast-down',
    title: 'Friction torque that the measured coast-down stands for',
    symbol: 'M',
    dimension: 'torque',
    needs: {
      inertia,
      speed: { symbol: 'ω', dimension: 'angular-speed', effect: 'raises' },
      'coast-down': { symbol: 't', dimension: 'time', effect: 'lowers' }
    },
    expression: '{inertia}·{speed}/{coast-down}',
    evaluate: (values) => (values.inertia * values.speed) / values['coast-down'],
    source: 'rotational dynamics: OpenStax College Physics, module m42180',
    notes: ['A mean: real friction changes with speed.']
  })
}

export function coastRevolutionsOf(parameters: EnergyParameters): Outcome {
  return calculate(parameters, {
    id: 'coast-revolutions',
    title: 'Revolutions until it stands still',
    symbol: 'N',
    dimension: 'number',
    needs: {
      inertia,
      speed: { symbol: 'ω', dimension: 'angular-speed', effect: 'raises' },
      'friction-torque': { symbol: 'M', dimension: 'torque', effect: 'lowers' }
    },
    steps: [
      {
        name: 'stored',
        symbol: 'E',
        unit: 'J',
        expression: '½·{inertia}·{speed}²',
        value: (values) => rotatingEnergy(values.inertia, values.speed)
      }
    ],
    expression: '{stored}/(2π·{friction-torque})',
    evaluate: (values) => coastRevolutions(rotatingEnergy(values.inertia, values.speed), values['friction-torque']),
    whyNever: () => 'With no friction the rotor does not slow down.',
    source: 'work of a torque: OpenStax University Physics, module m58333'
  })
}

export function gravityEnergyOf(parameters: EnergyParameters): Outcome {
  return calculate(parameters, {
    id: 'gravity-energy',
    title: 'Energy of the raised load',
    symbol: 'E',
    dimension: 'energy',
    needs: {
      mass: { symbol: 'm', dimension: 'mass', effect: 'raises' },
      height: { symbol: 'h', dimension: 'length', effect: 'raises' }
    },
    constants: [
      { name: 'g', symbol: 'g', value: standardGravity, unit: 'm/s²', source: 'conventional value, exact (CGPM 1901)' }
    ],
    expression: '{mass}·{g}·{height}',
    evaluate: ({ mass, height }) => gravityEnergy(mass, height),
    source: 'OpenStax College Physics, module m42152'
  })
}

const rate = { symbol: 'k', dimension: 'force-per-length' } as const
const measured = 'The deflection counts from the unloaded length of the spring.'

/** Everything the spring holds, what its preload keeps included. */
export function springEnergyOf(parameters: EnergyParameters): Outcome {
  return calculate(parameters, {
    id: 'spring-energy',
    title: 'Energy in the spring, down to its unloaded length',
    symbol: 'E',
    dimension: 'energy',
    needs: {
      rate: { ...rate, effect: 'raises' },
      deflection: { symbol: 'x', dimension: 'length', effect: 'raises' }
    },
    expression: '½·{rate}·{deflection}²',
    evaluate: (values) => springEnergy(values.rate, values.deflection),
    source: 'OpenStax University Physics, module m58312',
    notes: [measured]
  })
}

/** What it gives up on the way to its stop. */
export function springReleaseOf(parameters: EnergyParameters): Outcome {
  const byForce = parameters.quantities['preload']?.dimension !== 'length'
  const kept = (strain: number, stiffness: number): number => (byForce ? strain / stiffness : strain)
  return calculate(parameters, {
    id: 'spring-release',
    title: 'Energy that the spring gives up on the way to its stop',
    symbol: 'E',
    dimension: 'energy',
    needs: {
      // A stiffer spring is strained less by the same preload force, so both terms raise the result.
      rate: { ...rate, effect: 'raises' },
      deflection: { symbol: byForce ? 'x' : 'x2', dimension: 'length', effect: 'raises' },
      preload: { symbol: byForce ? 'F' : 'x1', dimension: byForce ? 'force' : 'length', effect: 'lowers' }
    },
    expression: byForce ? '½·{rate}·({deflection}² − ({preload}/{rate})²)' : '½·{rate}·({deflection}² − {preload}²)',
    evaluate: (values) =>
      Math.max(
        0,
        springEnergy(values.rate, values.deflection) - springEnergy(values.rate, kept(values.preload, values.rate))
      ),
    source: 'OpenStax University Physics, module m58312',
    notes: [measured, 'What the preload keeps is freed when the stop is taken off.']
  })
}

/** What it still holds at its stop. */
export function springPreloadOf(parameters: EnergyParameters): Outcome {
  const byForce = parameters.quantities['preload']?.dimension !== 'length'
  return calculate(parameters, {
    id: 'spring-preload',
    title: 'Energy that the spring keeps at its stop',
    symbol: 'E',
    dimension: 'energy',
    needs: {
      rate: { ...rate, effect: byForce ? 'lowers' : 'raises' },
      preload: { symbol: byForce ? 'F' : 'x1', dimension: byForce ? 'force' : 'length', effect: 'raises' }
    },
    expression: byForce ? '½·{preload}²/{rate}' : '½·{rate}·{preload}²',
    evaluate: (values) =>
      byForce ? (0.5 * values.preload ** 2) / values.rate : springEnergy(values.rate, values.preload),
    source: 'OpenStax University Physics, module m58312',
    notes: ['It stays as long as the stop holds, and is freed when the stop is taken off.']
  })
}
