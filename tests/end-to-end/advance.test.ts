import { readFileSync } from 'node:fs'
import type { PointId, RoleId, SourceId } from '@lockwright/language'
import {
  advance,
  type Event,
  type LockId,
  type Machine,
  type PersonId,
  type Refusal,
  type Snapshot,
  start,
  stateOf
} from '@lockwright/machine'
import { describe, expect, it } from 'vitest'
import { machineOf } from './compile-text.js'
import { answersAt } from './walk.js'

const example = readFileSync(new URL('../fixtures/contract-example.md', import.meta.url), 'utf8')
const ines = 'walker' as PersonId
const otto = 'otto' as PersonId

/** Walks the first lawful answer at each place until the predicate holds. */
function until(machine: Machine, holds: (snapshot: Snapshot) => boolean, from: Snapshot = start(machine)): Snapshot {
  let snapshot = from
  for (let count = 0; count < 500 && !holds(snapshot); count += 1) {
    const at = snapshot.at === '' ? '2026-01-05T06:00:00.000Z' : new Date(Date.parse(snapshot.at) + 1000).toISOString()
    const [event] = answersAt(machine, snapshot, at)
    if (event === undefined) throw new Error(`nothing to answer at ${snapshot.state}`)
    const next = advance(machine, snapshot, event)
    if (!next.ok) throw new Error(JSON.stringify(next.refusals))
    snapshot = next.snapshot
  }
  if (!holds(snapshot)) throw new Error('never came there')
  return snapshot
}

const atKind =
  (machine: Machine, kind: string) =>
  (snapshot: Snapshot): boolean =>
    snapshot.status !== 'new' && stateOf(machine, snapshot.state).kind === kind

function after(snapshot: Snapshot, seconds = 1): string {
  return new Date(Date.parse(snapshot.at) + seconds * 1000).toISOString()
}

function taken(machine: Machine, snapshot: Snapshot, event: Event): Snapshot {
  const next = advance(machine, snapshot, event)
  if (!next.ok) throw new Error(JSON.stringify(next.refusals))
  return next.snapshot
}

function refused(machine: Machine, snapshot: Snapshot, event: Event): readonly Refusal[] {
  const before = JSON.stringify(snapshot)
  const next = advance(machine, snapshot, event)
  expect(JSON.stringify(snapshot)).toBe(before)
  if (next.ok) throw new Error(`was taken: ${event.kind}`)
  for (const { why, mend } of next.refusals) expect(why !== '' && mend !== '').toBe(true)
  return next.refusals
}

describe('advance', () => {
  const machine = machineOf(example)

  it('holds at run time the gate that the proof relies on', () => {
    const unproven = machineOf(example.replace(':::prove{of="mains control dc-link"', ':::prove{of="mains control"'))
    const state = unproven.states.find((one) => one.kind === 'restrain' && one.restraints.includes('earths' as never))
    const snapshot = until(unproven, ({ state: at }) => at === state?.id)
    const [refusal] = refused(unproven, snapshot, {
      kind: 'done',
      state: snapshot.state,
      at: after(snapshot),
      by: ines,
      acknowledged: [],
      boxes: []
    })
    expect(refusal).toMatchObject({ kind: 'gate', obligation: 'ground-after-proof' })
  })

  it('does not let a wait be skipped, and counts it by the clock of the events', () => {
    const snapshot = until(machine, (at) => at.state !== machine.start && 'wait-dc-link' in at.progress.waits)
    const over = (seconds: number): Event => ({
      kind: 'wait-over',
      state: snapshot.state,
      input: 'wait-dc-link',
      at: after(snapshot, seconds),
      by: ines
    })
    expect(refused(machine, snapshot, over(899))[0]?.kind).toBe('too-early')
    expect(taken(machine, snapshot, over(900)).progress.waits['wait-dc-link']?.over).toBe(true)
  })

  it('refuses a box, an answer and a state that are not asked', () => {
    const snapshot = until(machine, atKind(machine, 'tryout'))
    const event: Event = {
      kind: 'done',
      state: snapshot.state,
      at: after(snapshot),
      by: ines,
      acknowledged: [],
      boxes: ['box-1', 'box-2']
    }
    expect(refused(machine, snapshot, { ...event, boxes: ['box-1', 'box-2', 'box-9'] })[0]?.kind).toBe('not-asked')
    expect(refused(machine, snapshot, { ...event, boxes: ['box-1'] })[0]?.kind).toBe('incomplete')
    expect(refused(machine, snapshot, { ...event, state: machine.start })[0]?.kind).toBe('not-asked')
    expect(taken(machine, snapshot, event).state).not.toBe(snapshot.state)
  })

  it('leaves a sign-off by a signature for its meaning alone', () => {
    const snapshot = until(machine, atKind(machine, 'signoff'))
    const ticks = { acknowledged: [], boxes: [], at: after(snapshot), by: ines, state: snapshot.state }
    expect(refused(machine, snapshot, { ...ticks, kind: 'done' })[0]?.kind).toBe('not-asked')
    const role = 'qualified' as RoleId
    expect(refused(machine, snapshot, { ...ticks, kind: 'signed', role, meaning: 'all well' })[0]?.kind).toBe(
      'not-asked'
    )
    const meaning = 'The inner cover may be opened'
    expect(refused(machine, snapshot, { ...ticks, kind: 'signed', role: 'owner' as RoleId, meaning })[0]?.kind).toBe(
      'not-asked'
    )
    expect(taken(machine, snapshot, { ...ticks, kind: 'signed', role, meaning }).state).not.toBe(snapshot.state)
  })

  it('takes no reading for proof that is not below the limit, whatever its sign', () => {
    const snapshot = until(machine, atKind(machine, 'prove'))
    const input = stateOf(machine, snapshot.state).inputs.find(({ kind }) => kind === 'reading')
    const read = (value: number): Snapshot =>
      taken(machine, snapshot, {
        kind: 'reading',
        state: snapshot.state,
        input: input?.id ?? '',
        value,
        typed: `${value} V`,
        at: after(snapshot),
        by: ines
      })
    for (const [value, inside] of [
      [0, true],
      [49.9, true],
      [50, false],
      [690, false],
      [-600, false]
    ] as const) {
      expect(read(value).progress.readings[input?.id ?? '']?.inside).toBe(inside)
    }
  })

  it('lets nobody put hands to the machine without a lock of their own', () => {
    const snapshot = until(machine, atKind(machine, 'work'))
    const boxes = stateOf(machine, snapshot.state).inputs.map(({ id }) => id)
    const work: Event = { kind: 'done', state: snapshot.state, at: after(snapshot), by: otto, acknowledged: [], boxes }
    expect(refused(machine, snapshot, work)[0]?.kind).toBe('crew')
    const locks = (['Q1', 'Q2', 'V1'] as PointId[]).map((point) => ({ point, lock: `otto ${point}` as LockId }))
    expect(
      refused(machine, snapshot, { kind: 'joined', locks: locks.slice(1), at: after(snapshot), by: otto })[0]?.kind
    ).toBe('crew')
    const joined = taken(machine, snapshot, { kind: 'joined', locks, at: after(snapshot), by: otto })
    expect(joined.crew).toEqual([ines, otto])
    expect(taken(machine, joined, { ...work, at: after(joined) }).state).not.toBe(snapshot.state)
  })

  it('hands over with the incoming locks on first', () => {
    const snapshot = until(machine, atKind(machine, 'work'))
    const locks = (['Q1', 'Q2', 'V1'] as PointId[]).map((point) => ({ point, lock: `otto ${point}` as LockId }))
    expect(refused(machine, snapshot, { kind: 'left', at: after(snapshot), by: ines })[0]?.kind).toBe('crew')
    expect(
      refused(machine, snapshot, {
        kind: 'handed-over',
        to: otto,
        locks: locks.slice(0, 2),
        at: after(snapshot),
        by: ines
      })[0]?.kind
    ).toBe('crew')
    const handed = taken(machine, snapshot, { kind: 'handed-over', to: otto, locks, at: after(snapshot), by: ines })
    expect(handed.crew).toEqual([otto])
  })

  it("takes another's lock off only by the three conditions of 29 CFR 1910.147(e)(3), and unlocks only when all are off", () => {
    let snapshot = until(machine, atKind(machine, 'work'))
    const locks = (['Q1', 'Q2', 'V1'] as PointId[]).map((point) => ({ point, lock: `otto ${point}` as LockId }))
    snapshot = taken(machine, snapshot, { kind: 'joined', locks, at: after(snapshot), by: otto })
    snapshot = until(machine, atKind(machine, 'unlock'), snapshot)
    const off: Event = {
      kind: 'lock-removed',
      state: snapshot.state,
      point: 'Q1' as PointId,
      owner: otto,
      at: after(snapshot),
      by: ines
    }
    expect(refused(machine, snapshot, off)[0]?.kind).toBe('crew')
    const absent = { verifiedAway: 'gate log shows him out', triedToReach: 'called twice', toldBeforeReturn: '' }
    expect(refused(machine, snapshot, { ...off, absent })[0]?.kind).toBe('crew')
    const removed = taken(machine, snapshot, {
      ...off,
      absent: { ...absent, toldBeforeReturn: 'shift lead meets him at the gate' }
    })
    expect(removed.locks.some(({ person, point }) => person === otto && point === 'Q1')).toBe(false)
    expect(
      refused(machine, removed, {
        kind: 'done',
        state: removed.state,
        at: after(removed),
        by: ines,
        acknowledged: [],
        boxes: []
      })[0]?.kind
    ).toBe('crew')
  })

  it('lets no gate pass as a deviation, and a plain step only with a reason', () => {
    const role = 'qualified' as RoleId
    const gate = until(machine, atKind(machine, 'tryout'))
    expect(
      refused(machine, gate, {
        kind: 'deviation',
        state: gate.state,
        reason: 'no time',
        role,
        at: after(gate),
        by: ines
      })[0]?.kind
    ).toBe('not-asked')
    const work = until(machine, atKind(machine, 'work'))
    expect(
      refused(machine, work, { kind: 'deviation', state: work.state, reason: ' ', role, at: after(work), by: ines })[0]
        ?.kind
    ).toBe('incomplete')
    expect(
      taken(machine, work, {
        kind: 'deviation',
        state: work.state,
        reason: 'cable already unplugged',
        role,
        at: after(work),
        by: ines
      }).state
    ).not.toBe(work.state)
  })

  it('after a pause asks for the locks and for every proof again', () => {
    const work = until(machine, atKind(machine, 'work'))
    const paused = taken(machine, work, { kind: 'paused', reason: 'lunch', at: after(work), by: ines })
    expect(refused(machine, paused, { kind: 'resumed', locksOn: false, at: after(paused), by: ines })[0]?.kind).toBe(
      'crew'
    )
    const resumed = taken(machine, paused, { kind: 'resumed', locksOn: true, at: after(paused), by: ines })
    expect(resumed.recheck).toEqual(['mains', 'control', 'dc-link', 'rotor', 'water'])
    const [open] = answersAt(machine, work, after(resumed))
    expect(open === undefined ? null : refused(machine, resumed, open)[0]?.kind).toBe('recheck')
    const again = (source: string, value: number | null): Event => ({
      kind: 'proven-again',
      source: source as SourceId,
      value,
      typed: `${value}`,
      at: after(resumed),
      by: ines
    })
    expect(refused(machine, resumed, again('mains', 400))[0]?.kind).toBe('out-of-limits')
    expect(refused(machine, resumed, again('mains', null))[0]?.kind).toBe('incomplete')
    const all = (['mains', 'control', 'dc-link', 'rotor', 'water'] as const).reduce(
      (at, source) => taken(machine, at, again(source, source === 'rotor' ? null : 0)),
      resumed
    )
    expect(all.recheck).toEqual([])
    expect(all.state).toBe(work.state)
  })

  it('stops by hand anywhere, and not without a word where opened equipment could be energized', () => {
    const work = until(machine, atKind(machine, 'work'))
    expect(taken(machine, work, { kind: 'stopped', reason: 'wrong part', at: after(work), by: ines }).status).toBe(
      'stopped'
    )
    const open: Snapshot = {
      ...work,
      ledger: { ...work.ledger, points: { ...work.ledger.points, Q1: 'off' } as Snapshot['ledger']['points'] }
    }
    const stop: Event = { kind: 'stopped', reason: 'alarm', at: after(open), by: ines }
    expect(refused(machine, open, stop)[0]).toMatchObject({ kind: 'gate', obligation: 'stop-safe' })
    expect(taken(machine, open, { ...stop, left: 'fenced off, a guard stands by' }).status).toBe('stopped')
  })

  it('takes nothing more once it is closed', () => {
    const ended = until(machine, ({ status }) => status === 'finished' || status === 'stopped')
    expect(refused(machine, ended, { kind: 'note', text: 'late', at: after(ended), by: ines })[0]?.kind).toBe('closed')
  })
})
