import type { EnergyParameters } from '../energy-parameters.js'
import { batteryEnergy } from '../formulas/electric-store.js'
import { calculate } from './calculate.js'
import type { Outcome } from './calculation.js'

const notes = ['Of a full battery, and it stays: waiting and switching off leave it as it is.']

export function batteryEnergyOf(parameters: EnergyParameters): Outcome {
  const common = { id: 'battery-energy', title: 'Energy in the battery', symbol: 'E', dimension: 'energy' } as const
  if (parameters.quantities['capacity']?.dimension === 'energy') {
    return calculate(parameters, {
      ...common,
      needs: { capacity: { symbol: 'capacity', dimension: 'energy', effect: 'raises' } },
      expression: '{capacity}',
      evaluate: ({ capacity }) => capacity,
      source: 'declared for this battery',
      notes
    })
  }
  return calculate(parameters, {
    ...common,
    needs: {
      voltage: { symbol: 'V', dimension: 'voltage', effect: 'raises' },
      capacity: { symbol: 'Q', dimension: 'charge', effect: 'raises' }
    },
    expression: '{voltage}·{capacity}',
    evaluate: ({ voltage, capacity }) => batteryEnergy(voltage, capacity),
    source: 'OpenStax College Physics, module m42324, from memory',
    notes
  })
}
