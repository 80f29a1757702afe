import { advance, type Event, type PersonId } from '@lockwright/machine'
import type { RunEvent } from '@lockwright/records'
import { describe, expect, it } from 'vitest'
import { memoryRun, standingClock, vega } from '../../fixtures/memory-run.js'
import { pumpLines } from '../../fixtures/pump-lines.js'
import { pumpMachine } from '../../fixtures/pump-machine.js'
import { openSession, type SessionOptions } from '../session/session.js'

/** Behind the locking step, with people on a roster. */
function locked(options: Partial<SessionOptions> = {}, before = 'read') {
  const clock = standingClock()
  const run = memoryRun(pumpMachine, clock.now)
  const people = () => ['m.vega', 'tor', 'mira'] as PersonId[]
  const session = openSession(run, { person: vega, keys: null, now: clock.now, takenUp: false, people, ...options })
  for (const line of pumpLines.slice(0, pumpLines.indexOf(before))) session.answer(line)
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

  it('covers what was locked since alone, and is told how where the step is refused without it', () => {
    const { run, session } = locked()
    session.answer('join tor Q1=31 V1=32')
    // Only the lock of tor on V1 is off again, as where a second device was locked after tor had joined.
    const half = run.snapshot.locks.filter(({ person, point }) => person !== 'tor' || point !== 'V1')
    const port = { ...run, snapshot: { ...run.snapshot, locks: half }, entries: run.entries }
    const taken: RunEvent[] = []
    const take = (event: RunEvent) => {
      const advanced = advance(port.machine, port.snapshot, { ...event, at: port.snapshot.at } as Event)
      if (advanced.ok) taken.push(event)
      return advanced
    }
    const again = openSession(
      { ...port, take, sign: take },
      { person: vega, keys: null, now: () => port.snapshot.at, takenUp: false }
    )
    again.answer('read')
    const refused = again.answer('start')
    expect(refused.said.join(' ')).toContain('tor is on the crew and has no lock of their own on V1')
    expect(refused.said.at(-1)).toBe('`join tor` asks for the number of each lock that is missing.')
    again.answer('join tor')
    expect(again.screen().question).toBe('tor joins: hang a lock and tag of tor on V1. What is its number?')
    again.answer('32')
    expect(taken.at(-1)).toMatchObject({ kind: 'joined', by: 'tor', locks: [{ point: 'V1', lock: '32' }] })
  })

  it('takes over in the middle of the lock step too: what hangs already and is not confirmed yet is covered', () => {
    const { run, session } = locked({}, 'V1 18')
    session.answer('V1 18')
    session.answer('handover mira')
    expect(session.screen().question).toContain('on Q1')
    session.answer('41')
    expect(session.screen().question).toContain('on V1')
    expect(session.answer('42').said).toContain('mira answers from now on.')
    expect(run.snapshot.locks.map(({ person, point, lock }) => `${person} ${point} ${lock}`)).toEqual([
      'mira Q1 41',
      'mira V1 42'
    ])
  })

  it('takes over from nobody who has no lock on, and is told so before any number is asked for', () => {
    const { session } = locked()
    session.answer('as tor')
    expect(session.answer('handover mira').said.join(' ')).toContain('tor has no lock on and nothing to hand over.')
    expect(session.question()).toBeNull()
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
