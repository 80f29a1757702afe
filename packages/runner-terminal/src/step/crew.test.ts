import type { PersonId } from '@lockwright/machine'
import { describe, expect, it } from 'vitest'
import { memoryRun, standingClock, vega } from '../../fixtures/memory-run.js'
import { pumpLines } from '../../fixtures/pump-lines.js'
import { pumpMachine } from '../../fixtures/pump-machine.js'
import { openSession, type SessionOptions } from '../session/session.js'

/** Behind the locking step, with people on a roster. */
function locked(options: Partial<SessionOptions> = {}) {
  const clock = standingClock()
  const run = memoryRun(pumpMachine, clock.now)
  const people = () => ['m.vega', 'tor', 'mira'] as PersonId[]
  const session = openSession(run, { person: vega, keys: null, now: clock.now, takenUp: false, people, ...options })
  for (const line of pumpLines.slice(0, pumpLines.indexOf('read'))) session.answer(line)
  return { run, session, clock }
}

describe('somebody who comes to work', () => {
  it('is asked for a lock on each locked point, one after the other', () => {
    const { run, session } = locked()
    session.answer('join tor')
    expect(session.screen().question).toBe('tor joins: hang a lock and tag of tor on Q1. What is its number?')
    expect(session.answer('17').said.join(' ')).toContain('Lock 17 already hangs on `Q1` (m.vega).')
    session.answer('31')
    expect(session.screen().question).toContain('on V1')
    expect(session.answer('31').refused).toBe(true)
    session.answer('32')
    expect(run.events.at(-1)).toMatchObject({ kind: 'joined', by: 'tor' })
    expect(session.screen().crew).toEqual(['m.vega', 'tor'])
    expect(session.screen().locksInShort).toEqual(['m.vega Q1=17 V1=18', 'tor Q1=31 V1=32'])
  })

  it('takes over with the incoming locks first, and is at the keys then', () => {
    const { run, session } = locked()
    session.answer('handover mira')
    expect(session.screen().question).toContain('All of them are on before an outgoing lock comes off.')
    session.answer('41')
    expect(run.snapshot.crew).toEqual(['m.vega'])
    expect(session.answer('42').said).toContain('mira answers from now on.')
    expect(run.snapshot.crew).toEqual(['mira'])
    expect(session.screen().person).toBe('mira')
  })

  it('is taken back by an empty line, with nothing recorded', () => {
    const { run, session } = locked()
    const before = run.events.length
    session.answer('join tor')
    session.answer('31')
    session.answer('')
    expect(session.question()).toBeNull()
    expect(run.events.length).toBe(before)
  })

  it('has to be on the roster', () => {
    const { session } = locked()
    for (const line of ['join thor', 'handover thor', 'as thor']) {
      expect(session.answer(line).said.join(' ')).toContain('Nobody on the roster has the id `thor`.')
    }
    expect(session.answer('handover m.vega').refused).toBe(true)
  })
})

describe('as', () => {
  it('asks who is at the keys, those under the lockout first', () => {
    const { session } = locked()
    session.answer('as')
    expect(
      session
        .screen()
        .keys.map(({ type, does }) => `${type} ${does}`)
        .slice(0, 2)
    ).toEqual(['1 tor', '2 mira'])
    session.answer('2')
    expect(session.screen().person).toBe('mira')
    expect(session.question()).toBeNull()
  })
})
