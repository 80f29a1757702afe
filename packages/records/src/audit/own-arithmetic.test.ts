import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Input, Machine } from '@lockwright/machine'
import { describe, expect, it } from 'vitest'
import { fanMachine } from '../../fixtures/fan-machine.js'
import { layout } from '../site.js'
import { gather, readGrounds } from './evidence.js'
import { fit } from './fit.js'
import { timely } from './timely.js'

// `advance` refuses what these look for, so a journal cannot show it. Here the replay stays as it was and the machine that
// it is judged by is changed: what is found then was found without `advance`.
const site = { folder: join(import.meta.dirname, '..', '..', 'fixtures', 'golden-v1', 'site') }
const file = layout.journal(site, 'golden')
const evidence = gather(readGrounds(site), file, readFileSync(file))

function judgedBy(change: (input: Input) => Input): typeof evidence {
  const states = fanMachine.states.map((state) => ({ ...state, inputs: state.inputs.map(change) }))
  return { ...evidence, machine: { ...fanMachine, states } as Machine }
}

const limited = (id: string, limits: { min?: number; max?: number; below?: number }) =>
  fit(
    judgedBy((input) =>
      input.kind === 'reading' && input.id === id
        ? { ...input, limits: { min: null, max: null, below: null, ...limits } }
        : input
    )
  ).found.map((one) => `${one.id} ${one.seq}`)

describe('readings', () => {
  // DC+ to DC- was read as 3.2 V and L1 to L2 as 0 V, both left at entry 16; the air flow as 1040 m3/h, left at entry 26.
  it.each([
    ['DC', { below: 3.3 }, []],
    ['DC', { below: 3.2 }, ['out-of-limits 16', 'read-live 15']],
    ['DC', { below: 0 }, ['out-of-limits 16', 'read-live 15']],
    ['L1-L2', { below: 0 }, []],
    ['reading', { min: 1040, max: 1040 }, []],
    ['reading', { min: 1041 }, ['out-of-limits 26']],
    ['reading', { max: 1039 }, ['out-of-limits 26']]
  ])('%s within %j gives %j', (id, limits, expected) => {
    expect(limited(id, limits)).toEqual(expected)
  })
})

describe('waits', () => {
  it.each([
    [305, []],
    [306, ['wait-short 8']]
  ])('of %i s, waited for 305 s, give %j', (seconds, expected) => {
    const found = timely(judgedBy((input) => (input.kind === 'wait' ? { ...input, seconds } : input))).found
    expect(found.map((one) => `${one.id} ${one.seq}`)).toEqual(expected)
  })
})
