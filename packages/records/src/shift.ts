import type { PersonId } from '@lockwright/machine'
import type { Entry } from './entry.js'
import type { Roster } from './roster.js'

/** Length of a shift where the roster says nothing, in hours: the longest that is usual. Common practice, no source. */
export const usualShiftHours = 12

/** How long a shift is at this site, in hours. */
export function shiftHoursOf(roster: Roster | null): number {
  return roster?.shiftHours ?? usualShiftHours
}

/** When the shift of someone who hung a lock at `since` is over at the latest, RFC 3339. */
export function shiftEnd(since: string, roster: Roster | null): string {
  return new Date(Date.parse(since) + shiftHoursOf(roster) * 3_600_000).toISOString()
}

/** One lock of one person on one point, from its hanging to its removal. */
export interface LockSpan {
  readonly person: PersonId
  readonly point: string
  readonly lock: string
  /** RFC 3339 */
  readonly since: string
  /** Line of the journal at which it was hung. */
  readonly hungAt: number
  /** Null: it hangs. A handover ends it: the incoming lock is another. */
  readonly until: string | null
  readonly removedAt: number | null
}

/** Every lock that the entries tell of, in the order in which they were hung. Entries that were refused tell of none. */
export function lockSpans(entries: readonly Entry[]): readonly LockSpan[] {
  const spans: LockSpan[] = []
  const hang = ({ at, seq }: Entry, person: PersonId, locks: readonly { point: string; lock: string }[]): void => {
    for (const { point, lock } of locks) {
      spans.push({ person, point, lock, since: at, hungAt: seq, until: null, removedAt: null })
    }
  }
  const remove = ({ at, seq }: Entry, person: PersonId, point: string | null): void => {
    for (const [index, span] of spans.entries()) {
      if (span.until !== null || span.person !== person || (point !== null && span.point !== point)) continue
      spans[index] = { ...span, until: at, removedAt: seq }
    }
  }
  for (const entry of entries) {
    const { event, by } = entry
    if (event.kind === 'lock-hung') hang(entry, by, [event])
    else if (event.kind === 'joined') hang(entry, by, event.locks)
    else if (event.kind === 'lock-removed' && event.from === undefined) remove(entry, event.owner, event.point)
    else if (event.kind === 'left') remove(entry, by, null)
    else if (event.kind === 'handed-over') {
      hang(entry, event.to, event.locks)
      remove(entry, by, null)
    }
  }
  return spans
}

/** A lock that was left on after the shift of its owner, with no handover. */
export interface LockPastShift extends LockSpan {
  /** RFC 3339; when the shift was over at the latest. */
  readonly shiftEnd: string
  /** How long it hung, or has hung until `at`, hours. */
  readonly hours: number
}

/** The locks that hang, or hung, longer than a shift; `at`: until when those count that still hang, RFC 3339. */
export function locksPastShift(
  spans: readonly LockSpan[],
  at: string,
  roster: Roster | null
): readonly LockPastShift[] {
  return spans.flatMap((span) => {
    const end = shiftEnd(span.since, roster)
    const hours = (Date.parse(span.until ?? at) - Date.parse(span.since)) / 3_600_000
    return hours > shiftHoursOf(roster) ? [{ ...span, shiftEnd: end, hours }] : []
  })
}
