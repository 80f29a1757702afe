import { describe, expect, it } from 'vitest'
import { memoryRun, standingClock, vega } from '../../fixtures/memory-run.js'
import { pumpLines } from '../../fixtures/pump-lines.js'
import { pumpMachine } from '../../fixtures/pump-machine.js'
import { fittingLine } from '../../fixtures/walk.js'
import type { KeyRing, RunPort, Taken } from '../run-port.js'
import { openSession } from './session.js'

/** A small linear congruential generator: the same walk for the same seed. */
function random(seed: number): (below: number) => number {
  let state = seed
  return (below) => {
    state = (state * 1664525 + 1013904223) % 2 ** 32
    return Math.floor((state / 2 ** 32) * below)
  }
}

describe('a run that is taken up', () => {
  /** Taken up after a crash behind the locking step. */
  function takenUp() {
    const clock = standingClock()
    const before = memoryRun(pumpMachine, clock.now)
    const first = openSession(before, { person: vega, keys: null, now: clock.now, takenUp: false })
    for (const line of pumpLines.slice(0, pumpLines.indexOf('read'))) first.answer(line)
    const run = memoryRun(pumpMachine, clock.now, { events: before.events })
    return { run, session: openSession(run, { person: vega, keys: null, now: clock.now, takenUp: true }) }
  }

  it.each(['join tor Q1=31 V1=32', 'handover tor Q1=31 V1=32', 'left m.vega', 'deviate told by mail'])(
    'takes no `%s` before somebody has looked at the locks',
    (line) => {
      const { run, session } = takenUp()
      const entries = run.entries.length
      const { refused, said } = session.answer(line)
      expect({ refused, said: said.join(' ') }).toEqual({
        refused: true,
        said: 'Nobody has looked at the locks since the run was taken up. Look at them first, and say whether they hang.'
      })
      expect(run.entries.length).toBe(entries)
      expect(session.question()).toBeNull()
    }
  )

  it('takes a note, and a stop, and goes on once they were looked at', () => {
    const { run, session } = takenUp()
    session.answer('note the battery was empty')
    expect(session.asked().kind).toBe('resume')
    session.answer('locks on')
    expect(run.events.slice(-2).map(({ kind }) => kind)).toEqual(['note', 'resumed'])
    const other = takenUp()
    other.session.answer('stop the lid is broken')
    expect(other.run.events.at(-1)?.kind).toBe('stopped')
  })
})

describe('a session', () => {
  it('is never refused on 60 seeded walks with kills and pauses, and ends where `advance` says', () => {
    const ends = new Map<string, number>()
    for (let seed = 1; seed <= 60; seed++) {
      const pick = random(seed * 7919)
      const clock = standingClock()
      let run = memoryRun(pumpMachine, clock.now)
      let session = openSession(run, { person: vega, keys: null, now: clock.now, takenUp: false })
      const takeUp = (): void => {
        run = memoryRun(pumpMachine, clock.now, { events: run.events })
        session = openSession(run, { person: vega, keys: null, now: clock.now, takenUp: true })
      }
      for (let turns = 0; turns < 500 && session.asked().kind !== 'nothing'; turns++) {
        if (pick(40) === 0) session.answer('pause shift ends')
        if (run.snapshot.status === 'paused' || pick(40) === 0) takeUp()
        clock.pass(pick(70))
        const due = session.asked().kind === 'waiting' ? session.due() : null
        if (due !== null) clock.set(due)
        session.passTime()
        if (due !== null) continue
        const line = fittingLine(session, pick)
        const reply = session.answer(line)
        expect([seed, line, reply.said, reply.refused]).toEqual([seed, line, reply.said, false])
        if (session.question() !== null) session.answer(line)
        const { step, about } = session.screen().way
        expect(step).toBeLessThanOrEqual(about)
      }
      const replayed = memoryRun(pumpMachine, clock.now, { events: run.events })
      expect(replayed.snapshot).toEqual(run.snapshot)
      const end = `${run.snapshot.status} at ${run.snapshot.state}`
      ends.set(end, (ends.get(end) ?? 0) + 1)
    }
    expect([...ends.keys()].sort()).toEqual(['finished at end.finish', 'stopped at no-fault', 'stopped at slow'])
  })

  it('asks what to lock or close first where a stop is not safe, and keeps what was answered', () => {
    const clock = standingClock()
    const real = memoryRun(pumpMachine, clock.now)
    const stops: unknown[] = []
    // A machine whose proof holds never gets here; the runner must know its way all the same.
    const run: RunPort = {
      mode: 'rehearsal',
      machine: pumpMachine,
      get snapshot() {
        return real.snapshot
      },
      entries: [],
      sign: (event) => run.take(event),
      take: (event): Taken => {
        if (event.kind !== 'stopped') return real.take(event)
        stops.push(event)
        const why = 'The machine is opened up and link could be energized.'
        return event.left === undefined
          ? { ok: false, refusals: [{ kind: 'gate', obligation: 'stop-safe', why, mend: 'Lock what feeds it first.' }] }
          : real.take(event)
      }
    }
    const session = openSession(run, { person: vega, keys: null, now: clock.now, takenUp: false })
    const first = session.answer('stop smoke in the cabinet')
    expect(first.refused).toBe(true)
    expect(session.screen().question).toBe(
      'Before the work stops: The machine is opened up and link could be energized. Lock what feeds it first. ' +
        'Then say in what condition the machine is left.'
    )
    session.answer('')
    expect(run.snapshot.status).toBe('running')
    session.answer('stop smoke in the cabinet')
    expect(session.answer('cabinet open, Q1 guarded by p.lind').ended).toBe('stopped')
    expect(stops.at(-1)).toEqual({
      kind: 'stopped',
      reason: 'smoke in the cabinet',
      left: 'cabinet open, Q1 guarded by p.lind',
      by: 'm.vega'
    })
  })

  it('shows no next step where the entry could not be written', () => {
    const clock = standingClock()
    const real = memoryRun(pumpMachine, clock.now)
    const refusal = {
      kind: 'not-written',
      obligation: null,
      why: 'The disk is full.',
      mend: 'Free space on it.'
    } as const
    const run: RunPort = {
      mode: 'rehearsal',
      machine: pumpMachine,
      snapshot: real.snapshot,
      entries: [],
      take: () => ({ ok: false, refusals: [refusal] }),
      sign: () => ({ ok: false, refusals: [refusal] })
    }
    const session = openSession(run, { person: vega, keys: null, now: clock.now, takenUp: false })
    session.answer('1 2 3 4')
    const before = session.screen()
    expect(session.answer('gathered')).toMatchObject({
      refused: true,
      said: ['Not taken: The disk is full.', 'Free space on it.']
    })
    expect(session.screen()).toEqual(before)
  })

  it('says why where the end of a wait is refused, and tries again once something was typed', () => {
    const clock = standingClock()
    const run = memoryRun(pumpMachine, clock.now)
    const session = openSession(run, { person: vega, keys: null, now: clock.now, takenUp: false })
    while (session.asked().kind !== 'waiting') session.answer(fittingLine(session, () => 0))
    session.answer('as p.lind')
    clock.set(session.due() ?? '')
    expect(session.passTime().said[0]).toContain('p.lind has no lock of their own')
    expect(session.due()).toBeNull()
    session.answer('join p.lind Q1=31 V1=32')
    expect(session.isDue()).toBe(true)
    expect(session.passTime().said).toEqual(['The wait is over.'])
    expect(run.events.at(-1)).toMatchObject({ kind: 'wait-over', by: 'p.lind' })
  })

  it('does not ask for a passphrase in a rehearsal', () => {
    const clock = standingClock()
    const run = memoryRun(pumpMachine, clock.now, { mode: 'rehearsal' })
    const keys: KeyRing = { has: () => true, open: () => ({ ok: false, why: 'asked', mend: '' }) }
    const session = openSession(run, { person: vega, keys, now: clock.now, takenUp: false })
    while (session.asked().kind !== 'sign') {
      const due = session.asked().kind === 'waiting' ? session.due() : null
      if (due !== null) clock.set(due)
      if (session.isDue()) session.passTime()
      else session.answer(fittingLine(session, () => 0))
    }
    session.answer('sign')
    expect(session.question()).toBeNull()
    expect(run.events.at(-1)).toMatchObject({ kind: 'signed' })
  })
})
