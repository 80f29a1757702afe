import { isSameLock, type PersonId } from '@lockwright/machine'
import type { RunId } from '../entry.js'
import type { RunSummary } from '../run-types.js'

/** A lock that hangs on a point of the same equipment by the record of another run. */
export interface LockElsewhere {
  readonly point: string
  /** As it was typed. */
  readonly lock: string
  readonly person: PersonId
  /** RFC 3339: when that run hung it. */
  readonly since: string
  readonly run: RunId
  /** `stopped`, `finished`: the run is closed and left it on; else that run goes on. */
  readonly status: RunSummary['status']
  /** RFC 3339; null: the run is open. */
  readonly closedAt: string | null
}

/** The same padlock of the same owner on the same point: it was not taken to another place, it hangs there still. */
export function isThatLock(
  one: { readonly point: string; readonly lock: string; readonly person: string },
  other: { readonly point: string; readonly lock: string; readonly person: string }
): boolean {
  return one.point === other.point && one.person === other.person && isSameLock(one.lock, other.lock)
}

/** `lock 41 of liv on V1, hung on 2026-03-02T08:01:15.000Z in run x, which was stopped` */
export function tellElsewhere({ lock, person, point, since, run, status }: LockElsewhere): string {
  const stands = { running: 'is still open', paused: 'is paused', stopped: 'was stopped', finished: 'was finished' }
  return `lock ${lock} of ${person} on ${point}, hung on ${since} in run ${run}, which ${stands[status]}`
}
