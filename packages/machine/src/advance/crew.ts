import type { PointId } from '@lockwright/language'
import type { Event, HungLock } from '../event.js'
import type { PersonId } from '../ids.js'
import type { Machine } from '../machine.js'
import type { Advanced, CrewLock, Snapshot } from '../snapshot.js'
import type { State } from '../state.js'
import { isSameLock, lockNumber } from './lock-number.js'
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
    case 'inspect':
      return true
    case 'measure':
      return state.near.length > 0
    default:
      return false
  }
}

/** Nobody works, and nobody is on the crew meanwhile, without a lock of their own on every point that is locked. */
export function missingOwnLock(snapshot: Snapshot, state: State, person: PersonId): Advanced | null {
  return isHandsOn(state) ? withoutOwnLock(snapshot, person) : null
}

/** The same for whatever is done with hands at the machine, at a step or not. */
export function withoutOwnLock(snapshot: Snapshot, person: PersonId): Advanced | null {
  const open = openTo(snapshot, person)
  if (open.length > 0) {
    return refuse(
      'crew',
      `${person} has no lock of their own on ${listed(open)} and may not put hands to the machine.`,
      'Join the crew first: hang a lock of your own on every locked device.'
    )
  }
  const other = snapshot.crew.find((one) => openTo(snapshot, one).length > 0)
  if (other === undefined) return null
  return refuse(
    'crew',
    `${other} is on the crew and has no lock of their own on ${listed(openTo(snapshot, other))}.`,
    `Have ${other} hang one there, or take their other locks off and leave the crew.`
  )
}

/** The locked points on which a person has no lock. */
function openTo(snapshot: Snapshot, person: PersonId): readonly PointId[] {
  return lockedPoints(snapshot).filter(
    (point) => !snapshot.locks.some((lock) => lock.point === point && lock.person === person)
  )
}

/** Locked points on which nobody has a lock any more: whoever passes by could switch them on. */
export function barePoints(snapshot: Snapshot): readonly PointId[] {
  return lockedPoints(snapshot).filter((point) => !snapshot.locks.some((lock) => lock.point === point))
}

/** Locks that would hang twice: a padlock hangs on one device, and each person has one on a device. */
function clash(locks: readonly CrewLock[], more: readonly CrewLock[]): Advanced | null {
  const all = [...locks]
  for (const next of more) {
    const same = all.find(({ lock }) => isSameLock(lock, next.lock))
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
  const unnamed = more.find(({ lock }) => lockNumber(lock) === '')
  if (unnamed !== undefined) {
    return refuse('crew', `The lock on ${unnamed.point} has no number.`, 'Enter what is written on the padlock.')
  }
  return clash(snapshot.locks, more) ?? { ok: true, snapshot: withLocks(snapshot, [...snapshot.locks, ...more]) }
}

/**
 * Hangs the locks of someone who comes on to the crew, or who has to catch up with a device that was locked since. With
 * those that hang already there is one on each of `points`; and none is named for a device that nobody has locked.
 */
function cover(snapshot: Snapshot, person: PersonId, hung: readonly HungLock[], points: readonly PointId[]): Advanced {
  const unlocked = hung.map(({ point }) => point).filter((point) => !points.includes(point))
  if (unlocked.length > 0) {
    return refuse(
      'crew',
      `${listed(unlocked)} is not locked, so no lock of ${person} can hold it.`,
      'Name a lock for each device that is locked, and for no other.'
    )
  }
  const on = [...snapshot.locks.filter((lock) => lock.person === person), ...hung].map(({ point }) => point)
  const missing = points.filter((point) => !on.includes(point))
  if (missing.length > 0) {
    return refuse(
      'crew',
      `No lock of ${person} is named for ${listed(missing)}.`,
      'A lock of their own hangs on every locked device before anybody relies on it.'
    )
  }
  return hang(snapshot, person, hung)
}

export function join(snapshot: Snapshot, event: Extract<Event, { kind: 'joined' }>): Advanced {
  const locked = lockedPoints(snapshot)
  if (locked.length === 0) {
    return refuse('crew', 'Nothing is locked yet, so there is no lockout to join.', 'Hang your lock at the lock step.')
  }
  if (event.locks.length === 0 && openTo(snapshot, event.by).length === 0) {
    return refuse(
      'crew',
      `${event.by} is on the crew already, with a lock on every locked device.`,
      'Go on with the step.'
    )
  }
  return cover(snapshot, event.by, event.locks, locked)
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
  if (event.to === event.by) {
    return refuse('crew', `${event.by} cannot hand over to themselves.`, 'Name the person who takes over.')
  }
  const own = snapshot.locks.filter(({ person }) => person === event.by).map(({ point }) => point)
  const joined = cover(snapshot, event.to, event.locks, [...new Set([...lockedPoints(snapshot), ...own])])
  return joined.ok ? leaveCrew(joined.snapshot, event.by) : joined
}

/** One lock off at the unlock step: one's own, or an absent person's under the three conditions of 1910.147(e)(3). */
export function takeOff(snapshot: Snapshot, state: State, event: LockRemoved): Advanced {
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
  const alone = notByOthers(event)
  if (alone !== null) return alone
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

/**
 * A lock that an earlier run left on comes off, at any step and by whoever may take it off. This run never relied on it,
 * so nothing changes in it; whether such a lock hangs by the record is for the records to tell.
 */
export function takeOffLeft(machine: Machine, snapshot: Snapshot, event: LockRemoved): Advanced {
  if (!machine.points.some(({ id }) => id === event.point)) {
    return refuse('not-asked', `This machine has no point ${event.point}.`, 'Look at the list of locks that hang.')
  }
  return notByOthers(event) ?? { ok: true, snapshot }
}

type LockRemoved = Extract<Event, { kind: 'lock-removed' }>

/** 29 CFR 1910.147(e)(3): only its owner takes a lock off, unless the three conditions are shown. */
function notByOthers({ owner, by, point, absent }: LockRemoved): Advanced | null {
  if (owner === by) return null
  const shown = absent === undefined ? [''] : [absent.verifiedAway, absent.triedToReach, absent.toldBeforeReturn]
  if (shown.every((text) => text.trim() !== '')) return null
  return refuse(
    'crew',
    `The lock on ${point} is ${owner}'s: only its owner takes it off.`,
    'If the owner is away, say how that was verified, how they were tried to be reached, and how they will be told before they return.'
  )
}

/**
 * Whose locks still hang where none may: on the points of an unlock or energize step, and anywhere once the equipment
 * goes back to service.
 */
export function locksLeft(machine: Machine, snapshot: Snapshot, state: State): readonly CrewLock[] {
  if (state.kind === 'finish') return snapshot.locks
  if (state.kind !== 'unlock' && state.kind !== 'energize') return []
  const points = new Set(machine.points.map(({ id }) => id).filter((id) => state.points.includes(id)))
  return snapshot.locks.filter(({ point }) => points.has(point))
}
