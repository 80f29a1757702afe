import type { PointId } from '@lockwright/language'
import type { Event, HungLock } from '../event.js'
import type { PersonId } from '../ids.js'
import type { Machine } from '../machine.js'
import type { Advanced, CrewLock, Snapshot } from '../snapshot.js'
import type { State } from '../state.js'
import { listed, refuse } from './refusal.js'

/** The snapshot with other locks; whoever has a lock on is on the crew. */
export function withLocks(snapshot: Snapshot, locks: readonly CrewLock[]): Snapshot {
  return { ...snapshot, locks, crew: [...new Set(locks.map(({ person }) => person))] }
}

export function lockedPoints({ ledger }: Snapshot): readonly PointId[] {
  return (Object.keys(ledger.points) as PointId[]).filter((point) => ledger.points[point] === 'locked')
}

/** Steps at which hands are in or at the machine: 29 CFR 1910.147(f)(3)(ii)(D) asks for a lock of one's own. */
function isHandsOn(state: State): boolean {
  switch (state.kind) {
    case 'relieve':
    case 'restrain':
    case 'prove':
    case 'work':
    case 'remove':
    case 'live':
      return true
    case 'measure':
      return state.near.length > 0
    default:
      return false
  }
}

/** Nobody works without a lock of their own on every point that is locked. */
export function missingOwnLock(snapshot: Snapshot, state: State, person: PersonId): Advanced | null {
  if (!isHandsOn(state)) return null
  const open = lockedPoints(snapshot).filter(
    (point) => !snapshot.locks.some((lock) => lock.point === point && lock.person === person)
  )
  if (open.length === 0) return null
  return refuse(
    'crew',
    `${person} has no lock of their own on ${listed(open)} and may not put hands to the machine.`,
    'Join the crew first: hang a lock of your own on every locked device.'
  )
}

/** Locks that would hang twice: a padlock hangs on one device, and each person has one on a device. */
function clash(locks: readonly CrewLock[], more: readonly CrewLock[]): Advanced | null {
  const all = [...locks]
  for (const next of more) {
    const same = all.find(({ lock }) => lock === next.lock)
    if (same !== undefined) {
      return refuse(
        'crew',
        `Lock ${next.lock} already hangs on ${same.point}, hung by ${same.person}.`,
        'Read the number on the padlock again, or take another one.'
      )
    }
    if (all.some(({ person, point }) => person === next.person && point === next.point)) {
      return refuse('crew', `${next.person} already has a lock on ${next.point}.`, 'One lock a person on each device.')
    }
    all.push(next)
  }
  return null
}

export function hang(snapshot: Snapshot, person: PersonId, hung: readonly HungLock[]): Advanced {
  const more = hung.map(({ point, lock }): CrewLock => ({ person, point, lock }))
  const unnamed = more.find(({ lock }) => lock.trim() === '')
  if (unnamed !== undefined) {
    return refuse('crew', `The lock on ${unnamed.point} has no number.`, 'Enter what is written on the padlock.')
  }
  return clash(snapshot.locks, more) ?? { ok: true, snapshot: withLocks(snapshot, [...snapshot.locks, ...more]) }
}

/** A lock on every locked device, no less. */
function uncovered(snapshot: Snapshot, locks: readonly HungLock[]): readonly PointId[] {
  return lockedPoints(snapshot).filter((point) => !locks.some((lock) => lock.point === point))
}

export function join(snapshot: Snapshot, event: Extract<Event, { kind: 'joined' }>): Advanced {
  if (lockedPoints(snapshot).length === 0) {
    return refuse('crew', 'Nothing is locked yet, so there is no lockout to join.', 'Hang your lock at the lock step.')
  }
  const missing = uncovered(snapshot, event.locks)
  if (missing.length > 0) {
    return refuse('crew', `No lock is named for ${listed(missing)}.`, 'Hang a lock of your own on every locked device.')
  }
  return hang(snapshot, event.by, event.locks)
}

export function leaveCrew(snapshot: Snapshot, person: PersonId): Advanced {
  const kept = snapshot.locks.filter((lock) => lock.person !== person)
  if (kept.length === snapshot.locks.length) {
    return refuse('crew', `${person} has no lock on.`, 'Only somebody who joined can leave.')
  }
  const bare = lockedPoints(snapshot).filter((point) => !kept.some((lock) => lock.point === point))
  if (bare.length > 0) {
    return refuse(
      'crew',
      `Without the lock of ${person} nobody's lock would be on ${listed(bare)}.`,
      'Hand over to somebody whose locks go on first, or go on to the unlock step.'
    )
  }
  return { ok: true, snapshot: withLocks(snapshot, kept) }
}

/** 29 CFR 1910.147(f)(4): the incoming locks are on before the outgoing come off. */
export function handOver(snapshot: Snapshot, event: Extract<Event, { kind: 'handed-over' }>): Advanced {
  if (!snapshot.locks.some(({ person }) => person === event.by)) {
    return refuse(
      'crew',
      `${event.by} has no lock on and nothing to hand over.`,
      'Only somebody on the crew hands over.'
    )
  }
  const missing = uncovered(snapshot, event.locks)
  if (missing.length > 0) {
    return refuse(
      'crew',
      `${event.to} names no lock for ${listed(missing)}.`,
      'The incoming person hangs a lock on every locked device before the outgoing ones come off.'
    )
  }
  const joined = hang(snapshot, event.to, event.locks)
  return joined.ok ? leaveCrew(joined.snapshot, event.by) : joined
}

/** One lock off at the unlock step: one's own, or an absent person's under the three conditions of 1910.147(e)(3). */
export function takeOff(snapshot: Snapshot, state: State, event: Extract<Event, { kind: 'lock-removed' }>): Advanced {
  if (state.kind !== 'unlock' || !state.points.includes(event.point)) {
    return refuse(
      'not-asked',
      `This step does not take a lock off ${event.point}.`,
      'Locks come off at the unlock step.'
    )
  }
  const mine = snapshot.locks.find(({ person, point }) => person === event.owner && point === event.point)
  if (mine === undefined) {
    return refuse('crew', `${event.owner} has no lock on ${event.point}.`, 'Look at the list of locks that hang.')
  }
  if (event.owner !== event.by) {
    const shown = event.absent
    if (
      shown === undefined ||
      [shown.verifiedAway, shown.triedToReach, shown.toldBeforeReturn].some((text) => text.trim() === '')
    ) {
      return refuse(
        'crew',
        `The lock on ${event.point} is ${event.owner}'s: only its owner takes it off.`,
        'If the owner is away, say how that was verified, how they were tried to be reached, and how they will be told before they return.'
      )
    }
  }
  const taken = withLocks(
    snapshot,
    snapshot.locks.filter((lock) => lock !== mine)
  )
  const { progress } = taken
  return {
    ok: true,
    snapshot: { ...taken, progress: { ...progress, unlocked: [...new Set([...progress.unlocked, event.point])] } }
  }
}

/** Whose locks still hang on the points of an unlock step. */
export function locksLeft(machine: Machine, snapshot: Snapshot, state: State): readonly CrewLock[] {
  if (state.kind !== 'unlock') return []
  const points = new Set(machine.points.map(({ id }) => id).filter((id) => state.points.includes(id)))
  return snapshot.locks.filter(({ point }) => points.has(point))
}
