import type { PersonId } from '@lockwright/machine'
import type { Roster } from '../roster.js'
import { personOf } from '../roster-file.js'
import { lockSpans } from '../shift.js'
import type { Evidence } from './evidence.js'
import type { HangingLock } from './report.js'

/** Locks that hang where the replay ended; null: there is none. A rehearsal hangs none on any equipment. */
export function hangingLocks({ replay, entries, roster, summary, reading }: Evidence): readonly HangingLock[] | null {
  if (replay === null) return null
  if (summary?.mode === 'rehearsal') return []
  const taken = entries.slice(0, replay.snapshots.length - 1)
  if (replay.snapshot.locks.length === 0) return []
  const spans = lockSpans(taken)
  return replay.snapshot.locks.map(({ lock, point, person }) => ({
    lock,
    point,
    by: nameOf(person, roster),
    since: spans.findLast((span) => span.person === person && span.point === point)?.since ?? null,
    asOf: taken.length < reading.lines.length ? taken.length : null
  }))
}

/** `17 on Q1, Odd Teig (odd), since 2026-03-02T08:01:15.000Z` */
export function tellLock({ lock, point, by, since, asOf }: HangingLock): string {
  const when = since === null ? '' : `, since ${since}`
  const known = asOf === null ? '' : ` (as of entry ${asOf}; what came after cannot be told)`
  return `lock ${lock} on ${point}, ${by}${when}${known}`
}

/** Printed name and id, or the id alone. */
export function nameOf(person: PersonId, roster: Roster | null): string {
  const name = roster === null ? null : personOf(roster, person)?.name
  return name === null || name === undefined ? person : `${name} (${person})`
}
