import { readdirSync, readFileSync } from 'node:fs'
import type { Machine } from '@lockwright/machine'
import { xstateOf } from '@lockwright/machine/exports'
import { explore, prove } from '@lockwright/proof'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { createActor, createMachine } from 'xstate'
import { machineOf } from '../end-to-end/compile-text.js'
import { randomProcedure } from '../proof/random-procedure.js'
import { type ChartWalk, chartWalks } from './chart-walks.js'
import { twoAxes } from './two-axes.js'

// Reference: xstate 5, a general-purpose state machine library.
const folder = new URL('../../procedures/', import.meta.url)
const files = readdirSync(folder).filter((name) => name.endsWith('.md') && name !== 'README.md')
const seeds = Array.from({ length: 40 }, (_, index) => index + 1)

describe('xstate 5 on the exported machine', () => {
  it.each(files)('takes the events of %s to the states of advance', (file) => {
    const machine = machineOf(readFileSync(new URL(file, folder), 'utf8'), file)
    for (const walk of chartWalks(machine, seeds)) expect(walkedByXstate(machine, walk)).toEqual(walk)
  })

  it('takes every sort of event to the states of advance', () => {
    const machine = machineOf(twoAxes)
    expect(prove(machine).kind).toBe('proved')
    const walks = chartWalks(machine, seeds)
    for (const walk of walks) expect(walkedByXstate(machine, walk)).toEqual(walk)
    const met = new Set(walks.flatMap(({ steps }) => steps.map(({ event }) => event.split('.').slice(0, 2).join('.'))))
    expect([...met].sort()).toEqual([
      'answer.answer-1',
      'answer.answer-2',
      'hardware.cabinet',
      'hardware.drive',
      'late.lock-out_3',
      'reading.again',
      'reading.inside',
      'reading.outside',
      'run.finished',
      'run.stopped',
      'step.done'
    ])
  })

  it('agrees on random procedures in which no way breaks a rule (seed 5)', () => {
    const machines = fc
      .sample(randomProcedure, { seed: 5, numRuns: 600 })
      .map(({ text }) => machineOf(text))
      .filter((machine) => explore(machine, 20_000).breaches.length === 0)
    expect(machines.length).toBeGreaterThan(15)
    for (const machine of machines) {
      for (const walk of chartWalks(machine, [1, 2, 3])) expect(walkedByXstate(machine, walk)).toEqual(walk)
    }
  })

  it('is plain data, and says where each state stands in the procedure', () => {
    const machine = machineOf(twoAxes)
    const config = xstateOf(machine)
    expect(JSON.parse(JSON.stringify(config))).toEqual(config)
    const told = new Set(Object.values(config.states).flatMap(({ meta }) => meta?.state ?? []))
    // Everything that is reached at all; what is known of the hardware multiplies states, and loses none.
    expect(machine.states.map(({ id }) => id).filter((id) => !told.has(id))).toEqual([])
  })
})

/** The same events, with the states in which xstate rests after each. */
function walkedByXstate(machine: Machine, { steps }: ChartWalk): ChartWalk {
  const actor = createActor(createMachine(xstateOf(machine) as Parameters<typeof createMachine>[0])).start()
  const where = (): string => String(actor.getSnapshot().value)
  const first = where()
  return {
    first,
    steps: steps.map(({ event }) => {
      actor.send({ type: event })
      return { event, state: where() }
    })
  }
}
