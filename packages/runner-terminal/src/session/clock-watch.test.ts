import { describe, expect, it } from 'vitest'
import { memoryRun, standingClock, vega } from '../../fixtures/memory-run.js'
import { pumpLines } from '../../fixtures/pump-lines.js'
import { pumpMachine } from '../../fixtures/pump-machine.js'
import { openSession } from './session.js'

/** At the wait of 5 min, just begun; the wall clock and the one that nobody sets are moved apart by `set`. */
function waiting() {
  const clock = standingClock()
  let elapsed = 0
  const run = memoryRun(pumpMachine, clock.now)
  const session = openSession(run, { person: vega, keys: null, now: clock.now, elapsed: () => elapsed, takenUp: false })
  const pass = (seconds: number): void => {
    elapsed += seconds * 1000
    clock.pass(seconds)
  }
  for (const line of pumpLines.slice(0, pumpLines.indexOf('start') + 1)) {
    pass(5)
    session.answer(line)
  }
  expect(session.asked().kind).toBe('waiting')
  session.screen()
  return { session, pass, setClock: (seconds: number) => clock.pass(seconds) }
}

describe('a clock that is set while a wait runs', () => {
  it('makes the wait no shorter where it is set on, and warns', () => {
    const { session, pass, setClock } = waiting()
    pass(60)
    setClock(3600)
    expect(session.isDue()).toBe(false)
    expect(session.screen().warnings.join(' ')).toContain('was set on by 1 h while this run was open')
    pass(239)
    expect(session.isDue()).toBe(false)
    pass(2)
    expect(session.isDue()).toBe(true)
    expect(session.passTime().said).toContain('The wait is over.')
  })

  it('makes it longer where it is set back: never shorter than the wall clock says', () => {
    const { session, pass, setClock } = waiting()
    setClock(-3600)
    expect(session.screen().warnings.join(' ')).toContain('was set back by 1 h')
    pass(301)
    expect(session.isDue()).toBe(false)
    pass(3600)
    expect(session.isDue()).toBe(true)
  })

  it('warns of nothing where the clocks go together, as they do over a lid that was shut', () => {
    const { session, pass } = waiting()
    pass(301)
    expect(session.screen().warnings).toEqual([])
    expect(session.isDue()).toBe(true)
  })
})
