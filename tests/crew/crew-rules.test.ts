import { advance, type Event, type Refusal, type Snapshot, start, stateOf } from '@lockwright/machine'
import { describe, expect, it } from 'vitest'
import { answersAt } from '../end-to-end/walk.js'
import { twoValves } from './two-valves.js'

const machine = twoValves()
const at = '2026-03-02T08:00:00.000Z'

/** Takes an event by somebody; `state` where the run stands. */
function give(snapshot: Snapshot, by: string, event: object): { snapshot: Snapshot; refusals: readonly Refusal[] } {
  const advanced = advance(machine, snapshot, { state: snapshot.state, at, by, ...event } as unknown as Event)
  return advanced.ok ? { snapshot: advanced.snapshot, refusals: [] } : { snapshot, refusals: advanced.refusals }
}

function taken(snapshot: Snapshot, by: string, event: object): Snapshot {
  const given = give(snapshot, by, event)
  if (given.refusals.length > 0) throw new Error(JSON.stringify(given.refusals))
  return given.snapshot
}

const whyNot = (snapshot: Snapshot, by: string, event: object): string =>
  give(snapshot, by, event)
    .refusals.map(({ why }) => why)
    .join(' ')

/** Walks on as one person until the run stands at a step of that kind; `times`: at how many such steps it went by. */
function walkTo(kind: string, from: Snapshot = start(machine), times = 0): Snapshot {
  let [snapshot, passed] = [from, 0]
  for (let count = 0; count < 100; count += 1) {
    if (snapshot.status === 'running' && stateOf(machine, snapshot.state).kind === kind) {
      if (passed === times) return snapshot
      if (answersAt(machine, snapshot, at)[0]?.kind === 'done') passed += 1
    }
    const [event] = answersAt(machine, snapshot, at)
    if (event === undefined) break
    snapshot = taken(snapshot, 'odd', { ...event, by: 'odd' })
  }
  throw new Error(`never came to ${kind}`)
}

const lock = (point: string, number: string): object => ({ point, lock: number })
const joined = (...locks: readonly object[]): object => ({ kind: 'joined', locks })
const done = { kind: 'done', acknowledged: [], boxes: [] }
const absent = { verifiedAway: 'Gate log', triedToReach: 'Called twice', toldBeforeReturn: 'The shift lead' }

describe('several people under one lockout', () => {
  // 29 CFR 1910.147(f)(3)(ii)(D): each affixes a personal device before beginning work.
  it('work only once everyone on the crew has a lock on what was locked since they came', () => {
    const first = walkTo('relieve')
    const two = taken(first, 'runa', joined(lock('V1', 'R1')))
    const second = walkTo('relieve', taken(two, 'odd', done))
    expect(second.crew).toEqual(['odd', 'runa'])
    const work = { ...done }
    expect(whyNot(second, 'odd', work)).toBe('runa is on the crew and has no lock of their own on V2.')
    expect(whyNot(second, 'runa', work)).toContain('runa has no lock of their own on V2')
    // She hangs the missing one, or takes her other one off and leaves.
    expect(whyNot(taken(second, 'runa', joined(lock('V2', 'R2'))), 'odd', work)).toBe('')
    expect(whyNot(taken(second, 'runa', { kind: 'left' }), 'odd', work)).toBe('')
  })

  it('hang a padlock on one device, and on what is locked alone', () => {
    const at1 = walkTo('relieve')
    expect(whyNot(at1, 'runa', joined(lock('V1', ' lock V1 ')))).toContain('already hangs on V1')
    expect(whyNot(at1, 'runa', joined(lock('V1', 'R1'), lock('V2', 'R2')))).toBe(
      'V2 is not locked, so no lock of runa can hold it.'
    )
    expect(whyNot(at1, 'runa', joined(lock('V9', 'R1')))).toContain('V9 is not locked')
    expect(whyNot(at1, 'runa', joined(lock('V1', ' ')))).toContain('has no number')
    expect(whyNot(at1, 'odd', joined())).toContain('on the crew already')
    expect(whyNot(at1, 'runa', joined())).toContain('No lock of runa is named for V1')
  })

  it('leave with their own locks off, and never the last', () => {
    const work = walkTo('work')
    expect(whyNot(work, 'odd', { kind: 'left' })).toContain("nobody's lock would be on V1 and V2")
    expect(whyNot(work, 'runa', { kind: 'left' })).toBe('runa has no lock on.')
    const two = taken(work, 'runa', joined(lock('V1', 'R1'), lock('V2', 'R2')))
    const gone = taken(two, 'odd', { kind: 'left' })
    expect(gone.locks.map(({ person }) => person)).toEqual(['runa', 'runa'])
    expect(whyNot(gone, 'odd', done)).toContain('odd has no lock of their own')
  })

  // (f)(3)(ii)(D) again: taking tools out and closing guards is work at the machine.
  it('inspect behind their own locks', () => {
    const inspect = walkTo('inspect')
    expect(whyNot(inspect, 'runa', done)).toContain('runa has no lock of their own on V1 and V2')
    expect(whyNot(inspect, 'odd', done)).toBe('')
  })
})

// (f)(4): orderly transfer between off-going and oncoming employees.
describe('a handover', () => {
  const over = (to: string, ...locks: readonly object[]): object => ({ kind: 'handed-over', to, locks })

  it('puts the incoming locks on first, on everything', () => {
    const work = walkTo('work')
    expect(whyNot(work, 'odd', over('runa'))).toContain('No lock of runa is named for V1 and V2')
    expect(whyNot(work, 'odd', over('runa', lock('V1', 'R1')))).toContain('No lock of runa is named for V2')
    expect(whyNot(work, 'odd', over('odd', lock('V1', 'O3'), lock('V2', 'O4')))).toContain('cannot hand over')
    expect(whyNot(work, 'liv', over('runa', lock('V1', 'R1'), lock('V2', 'R2')))).toContain('nothing to hand over')
    const after = taken(work, 'odd', over('runa', lock('V1', 'R1'), lock('V2', 'R2')))
    expect(after.crew).toEqual(['runa'])
  })

  it('counts the locks that the incoming person has on', () => {
    const two = taken(walkTo('work'), 'runa', joined(lock('V1', 'R1'), lock('V2', 'R2')))
    expect(taken(two, 'odd', over('runa')).locks.map(({ lock: number }) => number)).toEqual(['R1', 'R2'])
  })

  it('leaves no gap while the lock step is not done yet', () => {
    const hung = taken(walkTo('lock'), 'odd', { kind: 'lock-hung', point: 'V1', lock: 'O1' })
    expect(whyNot(hung, 'odd', over('runa'))).toContain('No lock of runa is named for V1')
    expect(taken(hung, 'odd', over('runa', lock('V1', 'R1'))).crew).toEqual(['runa'])
  })

  it('can come before the proofs after a break, so that the shift that comes on proves', () => {
    const work = walkTo('work')
    const paused = taken(work, 'odd', { kind: 'paused', reason: 'End of shift' })
    expect(whyNot(paused, 'odd', over('runa', lock('V1', 'R1'), lock('V2', 'R2')))).toBe('The run is paused.')
    const resumed = taken(paused, 'odd', { kind: 'resumed', locksOn: true })
    const night = taken(resumed, 'odd', over('runa', lock('V1', 'R1'), lock('V2', 'R2')))
    const proof = { kind: 'proven-again', source: 'inlet', value: 0, typed: '0 bar' }
    expect(whyNot(night, 'odd', proof)).toContain('odd has no lock of their own')
    expect(night.recheck).toEqual(['inlet', 'rinse'])
    expect(whyNot(night, 'runa', done)).toContain('proven dead again first')
    expect(taken(night, 'runa', proof).recheck).toEqual(['rinse'])
  })
})

// (e)(3): by the person who applied it; else verified away, tried to be reached, told before resuming work.
describe("someone else's lock", () => {
  const unlock = (): Snapshot =>
    walkTo('unlock', taken(walkTo('work'), 'runa', joined(lock('V1', 'R1'), lock('V2', 'R2'))))
  const off = (owner: string, more: object = {}): object => ({ kind: 'lock-removed', point: 'V1', owner, ...more })

  it('comes off under all three conditions alone', () => {
    const at1 = unlock()
    expect(whyNot(at1, 'odd', off('runa'))).toContain("The lock on V1 is runa's")
    for (const missing of ['verifiedAway', 'triedToReach', 'toldBeforeReturn']) {
      expect(whyNot(at1, 'odd', off('runa', { absent: { ...absent, [missing]: '  ' } }))).toContain("is runa's")
    }
    expect(whyNot(at1, 'odd', off('runa', { absent }))).toBe('')
    expect(whyNot(at1, 'runa', off('runa'))).toBe('')
    expect(whyNot(at1, 'odd', off('liv', { absent }))).toBe('liv has no lock on V1.')
    expect(whyNot(walkTo('clear'), 'runa', off('odd', { absent }))).toContain('does not take a lock off V1')
  })

  it('keeps the device locked as long as it hangs', () => {
    const own = taken(unlock(), 'odd', off('odd'))
    const both = taken(own, 'odd', { ...off('odd'), point: 'V2' })
    expect(whyNot(both, 'odd', done)).toContain('Still on: lock R1 of runa on V1')
    expect(both.ledger.points).toMatchObject({ V1: 'locked', V2: 'locked' })
  })
})

// (d)(6): verification before work, again after anything that could have let energy back.
describe('a break', () => {
  it('ends the proofs of a machine that was closed up, and asks nobody to open it again', () => {
    const unlock = walkTo('unlock')
    expect(unlock.ledger.proofs).toMatchObject({ inlet: true, rinse: true })
    const paused = taken(unlock, 'odd', { kind: 'paused', reason: 'Alarm' })
    const resumed = taken(paused, 'odd', { kind: 'resumed', locksOn: true })
    expect(resumed.recheck).toEqual([])
    expect(resumed.ledger.proofs).toMatchObject({ inlet: false, rinse: false })
    const proof = { kind: 'proven-again', source: 'inlet', value: 0, typed: '0 bar' }
    expect(whyNot(resumed, 'odd', proof)).toContain('is not waiting to be proven again')
  })

  it('is no break where a missing lock was found: the run stops', () => {
    const paused = taken(walkTo('work'), 'odd', { kind: 'paused', reason: 'Dinner' })
    expect(whyNot(paused, 'odd', { kind: 'resumed', locksOn: false })).toContain('Not every lock was found on')
    expect(taken(paused, 'odd', { kind: 'stopped', reason: 'Lock missing' }).status).toBe('stopped')
  })
})
