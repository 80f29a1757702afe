import { describe, expect, it } from 'vitest'
import { memoryRun, standingClock } from '../../fixtures/memory-run.js'
import { provedFixture, pumpMachine } from '../../fixtures/pump-machine.js'
import { sessionAt } from '../../fixtures/session-at.js'
import { energiesOf } from './energies.js'

describe('energiesOf', () => {
  it('does not call locked what no point feeds', () => {
    const machine = {
      ...pumpMachine,
      sources: pumpMachine.sources.map((source) =>
        source.id === 'water' ? { ...source, at: [], fedBy: [], unfed: 'wound by hand' } : source
      )
    }
    const run = memoryRun(machine, standingClock().now)
    const { word, more } = energiesOf(machine, run.snapshot).find(({ source }) => source === 'water') ?? {}
    expect([word, more]).toEqual(['holds energy', 'nothing feeds it'])
    const empty = {
      ...machine,
      sources: machine.sources.map((source) =>
        source.id === 'water' ? { ...source, store: 'none' as const, kind: 'other' as const } : source
      )
    }
    expect(energiesOf(empty, memoryRun(empty, standingClock().now).snapshot).at(-1)?.word).toBe('nothing feeds it')
  })

  it('calls locked what hangs on a locked point by way of another source', () => {
    const session = sessionAt('read')
    expect(session.screen().energies.map(({ source, word, more }) => [source, word, more])).toEqual([
      ['mains', 'locked', ''],
      ['link', 'holds energy', 'locked'],
      ['water', 'holds energy', 'locked']
    ])
    expect(provedFixture('pump.md').sources.find(({ id }) => id === 'link')?.at).toEqual([])
  })
})
