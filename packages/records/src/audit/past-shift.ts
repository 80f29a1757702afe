import { type LockSpan, lockSpans, locksPastShift, shiftHoursOf } from '../shift.js'
import type { Evidence } from './evidence.js'
import { nameOf } from './hanging-locks.js'
import { count, type Found } from './verdict.js'

type Shift = Pick<Evidence, 'roster' | 'summary'>

/** Locks that came off later than the shift in which they were hung, without a handover. */
export function removedPastShift(evidence: Evidence): {
  readonly found: readonly Found[]
  readonly checked: readonly string[]
} {
  const spans = spansIn(evidence).filter(({ until }) => until !== null)
  const { roster, summary } = evidence
  const past = locksPastShift(spans, summary?.lastAt ?? '', roster)
  const hours = shiftHoursOf(roster)
  const whence = roster?.shiftHours === undefined ? ', the usual length: the roster gives none' : ''
  return {
    found: past.map((span) => pastShift(span, span.hours, evidence, 'was on')),
    checked:
      spans.length === 0 ? [] : [`${count(spans.length, 'lock')} that came off, against a shift of ${hours} h${whence}`]
  }
}

/** Locks of an open run that hang now although the shift in which they were hung is over. */
export function hangingPastShift(evidence: Evidence, at: string): readonly Found[] {
  const spans = spansIn(evidence).filter(({ until }) => until === null)
  return locksPastShift(spans, at, evidence.roster).map((span) => pastShift(span, span.hours, evidence, 'is on since'))
}

function spansIn({ entries, replay, summary }: Evidence): readonly LockSpan[] {
  if (replay === null || summary?.mode === 'rehearsal') return []
  return lockSpans(entries.slice(0, replay.snapshots.length - 1))
}

/** A length of shift that nobody gave is no ground for a fault. */
function pastShift(span: LockSpan, hours: number, { roster }: Shift, how: 'was on' | 'is on since'): Found {
  const { lock, point, person, since, hungAt } = span
  const told = Math.round(hours * 10) / 10
  const when = how === 'was on' ? `was on for ${told} h, from ${since}` : `is on since ${since}, ${told} h`
  return {
    id: 'lock-past-shift',
    weight: roster?.shiftHours === undefined ? 'doubt' : 'fault',
    seq: hungAt,
    what: `Lock ${lock} of ${nameOf(person, roster)} on ${point} ${when}, without a handover; a shift is ${shiftHoursOf(roster)} h.`,
    danger:
      'Its owner may have gone home, and whoever went on with the work had no lock of their own there (29 CFR 1910.147(f)(4)).',
    mend: 'Ask who was at work under it after the shift; hand over locks at the change of shift.'
  }
}
