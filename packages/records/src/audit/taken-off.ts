import { isSameLock } from '@lockwright/machine'
import type { Entry } from '../entry.js'
import type { Roster } from '../roster.js'
import { hungAfter } from '../store/hung-locks.js'
import type { HungLock } from '../store/store.js'
import { gravest } from './audit-run.js'
import { nameOf } from './hanging-locks.js'
import type { HangingLock, RunAudit, TakenOffLater } from './report.js'
import { leftWhat } from './run-due.js'

/** A lock that a run hung and took off again. */
export interface TakenOff {
  readonly run: string
  /** Entry by which it came off, and when. */
  readonly seq: number
  readonly at: string
  /** Tag. */
  readonly equipment: string
  readonly point: string
  readonly lock: string
  /** Id of the owner. */
  readonly owner: string
  /** When this run hung it; of one that it took off for the run that left it, when it came off. */
  readonly hungAt: string
  /** The run that left it, where this run never hung it itself; null: it did. */
  readonly from: string | null
}

/** What an issued run took off; nothing of one that was changed, or that did not keep to its machine. */
export function takenOffIn(run: RunAudit, entries: readonly Entry[]): readonly TakenOff[] {
  const { summary, verdicts } = run
  const [whole, followed] = verdicts
  if (summary?.mode !== 'issued' || whole.answer === 'findings' || followed.answer === 'findings') return []
  const off: TakenOff[] = []
  let hung: readonly HungLock[] = []
  for (const entry of entries) {
    const after = hungAfter(hung, entry)
    const gone = hung.filter((one) => !after.includes(one))
    hung = after
    const { event } = entry
    if (event.kind === 'lock-removed' && event.from !== undefined) {
      const { point, owner, from } = event
      const { seq, at } = entry
      const { equipment } = summary
      off.push({ run: run.run, seq, at, equipment, point, lock: from.lock, owner, hungAt: at, from: from.run })
    }
    for (const { lock, point, person, since } of gone) {
      const { seq, at } = entry
      off.push({
        run: run.run,
        seq,
        at,
        equipment: summary.equipment,
        point,
        lock,
        owner: person,
        hungAt: since,
        from: null
      })
    }
  }
  return off
}

/** A lock that a closed run left. */
export interface LeftLock {
  /** The run that left it. */
  readonly run: string
  readonly equipment: string
  readonly point: string
  readonly lock: string
  /** Name and id, as the report has them. */
  readonly by: string
  readonly closedAt: string
}

/**
 * How a lock that was left came off: the same padlock of the same owner, on the same point of the same equipment, was put
 * on record by a later issued run after the run that left it was closed, and taken off in it. Null: it did not.
 */
export function laterRemoval(left: LeftLock, off: readonly TakenOff[], roster: Roster | null): TakenOff | null {
  const { run, equipment, point, lock, by, closedAt } = left
  const removals = off.filter(
    (one) =>
      one.equipment === equipment &&
      one.point === point &&
      isSameLock(one.lock, lock) &&
      (one.from === null || one.from === run) &&
      nameOf(one.owner as Parameters<typeof nameOf>[0], roster) === by &&
      Date.parse(one.hungAt) > Date.parse(closedAt)
  )
  return removals.toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at))[0] ?? null
}

/** The audit of a closed run, once later runs are known: what they took off does not hang any more, and that is said. */
export function withoutTakenOff(
  run: RunAudit,
  off: readonly TakenOff[],
  roster: Roster | null
): { readonly run: RunAudit; readonly taken: readonly TakenOffLater[] } {
  const { summary, locks } = run
  if (summary === null || locks === null || (summary.status !== 'stopped' && summary.status !== 'finished')) {
    return { run, taken: [] }
  }
  const { equipment, lastAt: closedAt } = summary
  const removed = new Map<HangingLock, TakenOff>()
  for (const lock of locks) {
    const removal =
      lock.asOf === null ? laterRemoval({ ...lock, run: run.run, equipment, closedAt }, off, roster) : null
    if (removal !== null) removed.set(lock, removal)
  }
  if (removed.size === 0) return { run, taken: [] }
  const settled = new Set([...removed.keys()].map(leftWhat))
  const [whole, followed, fit, timely, due] = run.verdicts
  const findings = due.findings.filter(({ id, what }) => id !== 'lock-left' || !settled.has(what))
  const told = [...removed].map(
    ([{ lock, point, by }, removal]) =>
      `Lock ${lock} on ${point}, ${by}, was left on; it came off in run ${removal.run} on ${removal.at} (entry ${removal.seq})`
  )
  const answer = gravest(findings.map(({ weight }) => (weight === 'fault' ? 'findings' : 'cannot-tell')))
  const verdicts = [
    whole,
    followed,
    fit,
    timely,
    { ...due, answer, findings, checked: [...due.checked, ...told] }
  ] as const
  return {
    run: {
      ...run,
      locks: locks.filter((lock) => !removed.has(lock)),
      answer: gravest(verdicts.map((verdict) => verdict.answer)),
      verdicts
    },
    taken: [...removed].map(([{ lock, point, by, since }, removal]) => ({
      lock,
      point,
      by,
      since,
      equipment,
      run: run.run,
      offIn: { run: removal.run, seq: removal.seq, at: removal.at }
    }))
  }
}
