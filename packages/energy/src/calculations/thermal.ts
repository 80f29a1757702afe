import type { EnergyParameters } from '../energy-parameters.js'
import { timeToReach } from '../formulas/exponential.js'
import { calculate } from './calculate.js'
import type { Outcome } from './calculation.js'

export function coolingTimeOf(parameters: EnergyParameters): Outcome {
  return calculate(parameters, {
    id: 'cooling-time',
    title: 'Time to cool to the safe temperature',
    symbol: 't',
    dimension: 'time',
    needs: {
      temperature: { symbol: 'T0', dimension: 'temperature', effect: 'raises' },
      ambient: { symbol: 'Ta', dimension: 'temperature', effect: 'raises' },
      'time-constant': { symbol: 'τ', dimension: 'time', effect: 'raises' },
      'safe-below': { symbol: 'T', dimension: 'temperature', effect: 'lowers' }
    },
    expression: '{time-constant}·ln(({temperature} − {ambient})/({safe-below} − {ambient}))',
    evaluate: (values) =>
      timeToReach(values['time-constant'], values.temperature, values['safe-below'], values.ambient),
    whyNever: () => 'It never cools to the safe level: the surroundings may be as hot as that.',
    source: "Newton's law of cooling: OpenStax Calculus, module m53651",
    notes: ['For a body that cools evenly in air that stays as warm as that; its core can be hotter than its skin.']
  })
}
