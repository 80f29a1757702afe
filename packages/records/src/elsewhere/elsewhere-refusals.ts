import { isSameLock, type Machine, type Snapshot, stateOf } from '@lockwright/machine'
import type { Entry } from '../entry.js'
import type { RunRefusal } from '../run-types.js'
import { hungAfter } from '../store/hung-locks.js'
import { isThatLock, type LockElsewhere, tellElsewhere } from './lock-elsewhere.js'
import { clearedBy, clears } from './locks-elsewhere.js'

/** Of the locks of other runs those that this run has neither taken over nor taken off. */
export function notTakenOver(elsewhere: readonly LockElsewhere[], entries: readonly Entry[]): readonly LockElsewhere[] {
  const cleared = clearedBy(entries)
  return elsewhere.filter((left) => !cleared.some((by) => clears(by, left)))
}

/**
 * Why an entry may not be made while locks hang on the equipment by the records of other runs. `after`: where it would
 * lead; a point that would be unlocked or switched on by it, though such a lock hangs there, may not be, and neither may
 * one that this run took to be on all the time and that its step switches on.
 */
export function elsewhereRefusals(
  machine: Machine,
  elsewhere: readonly LockElsewhere[],
  entry: Entry,
  before: Snapshot,
  after: Snapshot
): readonly RunRefusal[] {
  const { event } = entry
  if (event.kind === 'lock-removed') {
    return event.from === undefined || elsewhere.some((one) => isLeft(one, event)) ? [] : [notLeft(elsewhere, event)]
  }
  const hung = hungAfter([], { ...entry, event })
  const inUse = hung.flatMap((one) => {
    const same = elsewhere.find(
      (other) => isSameLock(other.lock, one.lock) && !(other.closedAt !== null && isThatLock(one, other))
    )
    return same === undefined ? [] : [numberInUse(one.lock, same)]
  })
  if (inUse.length > 0 || elsewhere.length === 0) return inUse
  if (event.kind === 'finished') return elsewhere.map((one) => stillHangs(one, 'The equipment is not handed back'))
  const step = stateOf(machine, before.state)
  const points: readonly string[] = step.kind === 'energize' && event.kind === 'done' ? step.points : []
  const freed = elsewhere.filter(({ point }) => {
    if (points.includes(point)) return true
    const [was, is] = [stateIn(before, point), stateIn(after, point)]
    return was !== is && (is === 'on' || was === 'locked')
  })
  return freed.map((one) => stillHangs(one, `${one.point} is not unlocked or switched on`))
}

type Removed = Extract<Entry['event'], { readonly kind: 'lock-removed' }>

function isLeft(one: LockElsewhere, { point, owner, from }: Removed): boolean {
  if (from === undefined || one.closedAt === null) return false
  return one.run === from.run && isThatLock(one, { point, lock: from.lock, person: owner })
}

function stateIn({ ledger }: Snapshot, point: string): 'on' | 'off' | 'locked' | undefined {
  return (ledger.points as Readonly<Record<string, 'on' | 'off' | 'locked'>>)[point]
}

function notLeft(elsewhere: readonly LockElsewhere[], { point, owner, from }: Removed): RunRefusal {
  const open = elsewhere.find((one) => one.run === from?.run)
  return refusal(
    `By the records, run ${from?.run ?? ''} left no lock ${from?.lock ?? ''} of ${owner} on ${point}${open?.closedAt === null ? ': it is still open' : ''}.`,
    'Look at the list of locks that hang. What an open run has on comes off in that run.'
  )
}

function numberInUse(lock: string, same: LockElsewhere): RunRefusal {
  return refusal(
    `A padlock with the number ${lock} is in use on this equipment: ${tellElsewhere(same)}.`,
    `One padlock cannot hang twice. Read the number again or take another one. ${howOff(same)}`
  )
}

function stillHangs(one: LockElsewhere, first: string): RunRefusal {
  return refusal(
    `${first}: by the records another lock hangs there, ${tellElsewhere(one)}. Somebody may rely on it with hands in the machine.`,
    howOff(one)
  )
}

function howOff({ run, person, closedAt }: LockElsewhere): string {
  return closedAt === null
    ? `Ask ${person}. The lock comes off in run ${run}: go on with that run to its unlock step.`
    : `Ask ${person}, who takes the lock off and has that recorded in this run as a lock of run ${run}. Where ${person} is away, the three conditions for an absent owner hold.`
}

function refusal(why: string, mend: string): RunRefusal {
  return { kind: 'lock-elsewhere', obligation: null, why, mend }
}
