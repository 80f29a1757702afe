import type { Machine, State } from '@lockwright/machine'
import { instrumentFaults, instrumentNeed } from '@lockwright/records'
import { describe, expect, it } from 'vitest'
import { quantity, ratedFan, tester } from '../../packages/records/fixtures/rated-fan.js'

describe('an instrument', () => {
  it('has to be as strong as the tester that the procedure names, where the circuit asks for less', () => {
    const tool = { id: 'two-pole', kind: 'tool', measures: 'voltage', rated: quantity('1000 V'), category: 'IV' }
    const proving = ratedFan.states.find(({ id }) => `${id}` === 'prove-dead') as State
    const state = { ...proving, with: ['two-pole'] } as unknown as State
    const machine = { ...ratedFan, items: [tool] } as unknown as Machine
    const need = instrumentNeed(machine, state, 'L1-L2')
    const rated = (...ratings: readonly (readonly ['III' | 'IV', string])[]) => {
      const one = tester('VT', { ratings: ratings.map(([category, upTo]) => ({ category, upTo: quantity(upTo) })) })
      const list = { site: 'Sandholm waterworks', serial: 1, signedAt: '2026-02-01T07:00:00.000Z', instruments: [one] }
      const reading = { instrument: 'VT', value: 0, unit: 'V', at: '2026-03-02T08:00:00Z' }
      return instrumentFaults(list, need, reading).map(({ id, why }) => `${id}: ${why}`)
    }
    // IEC 61010-2-030: 1000 V of category III and 600 V of category IV are not 1000 V of category IV.
    expect(rated(['III', '1000 V'], ['IV', '600 V'])).toEqual([
      'instrument-under-rated: `VT` is rated CAT III 1000 V and CAT IV 600 V; the procedure asks for `two-pole`, rated 1000 V in category IV.'
    ])
    expect(rated(['IV', '1000 V'])).toEqual([])
    expect(rated(['IV', '1000 V dc'])).toHaveLength(2)
  })
})
