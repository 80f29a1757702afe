import { describe, expect, it } from 'vitest'
import { memoryRun, standingClock, vega } from '../../fixtures/memory-run.js'
import { pumpMachine } from '../../fixtures/pump-machine.js'
import { sessionAt } from '../../fixtures/session-at.js'
import { standingClock as rehearsalClock } from '../rehearsal/rehearsal-clock.js'
import { rehearsalRun } from '../rehearsal/rehearsal-run.js'
import { tellEnded } from './tell-ended.js'

describe('tellEnded', () => {
  it('says what still hangs where the run stays open', () => {
    expect(tellEnded('left', sessionAt('released').run)).toBe(
      'The terminal is left. The run stays open and goes on exactly here. Still hanging: 17 of m.vega on Q1, 18 of m.vega on V1.'
    )
    expect(tellEnded('left', memoryRun(pumpMachine, standingClock().now))).not.toContain('hanging')
  })

  it('says of no rehearsal that is kept nowhere that it stays open', () => {
    const run = rehearsalRun(pumpMachine, vega, rehearsalClock('2026-03-02T07:00:00Z', 30))
    expect(tellEnded('left', run)).toBe('The rehearsal is left.')
  })
})
