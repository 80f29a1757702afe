import type { JournalReading } from '../chain.js'
import { sha256Hex } from '../digest.js'
import { summarize } from '../list-runs.js'
import { hungLocks } from './hung-locks.js'
import type { StoredRun, WhichRuns } from './store.js'

/** A run of a list, and who had to do with it. */
export interface ReadRun {
  readonly run: StoredRun
  readonly people: ReadonlySet<string>
}

/** Where a journal lies, seen from the site folder; the same in every store. */
export const journalPath = (run: string): string => `runs/${run}.jsonl`

/** The row of a journal that was read; null without a readable opening. */
export function storedRun(reading: JournalReading, run: string): ReadRun | null {
  const summary = summarize(reading, journalPath(run))
  const last = reading.lines.at(-1)
  if (summary === null || last === undefined) return null
  const entries = reading.lines.flatMap(({ entry }) => (entry === null ? [] : [entry]))
  const signers = entries.flatMap(({ signature }) => (signature === undefined ? [] : [signature.by]))
  return {
    run: { ...summary, head: sha256Hex(last.text), locks: hungLocks(entries) },
    people: new Set([...entries.map(({ by }) => by), ...signers])
  }
}

/** Whether a run is among those asked for. */
export function isAsked({ run, people }: ReadRun, which: WhichRuns): boolean {
  const open = run.status === 'running' || run.status === 'paused'
  return (
    (which.open === undefined || which.open === open) &&
    (which.hanging === undefined || run.locks.length > 0) &&
    (which.since === undefined || Date.parse(run.lastAt) >= Date.parse(which.since)) &&
    (which.equipment === undefined || which.equipment === run.equipment) &&
    (which.procedure === undefined || which.procedure === run.procedure) &&
    (which.person === undefined || people.has(which.person))
  )
}

/** The latest opened first; of two opened at once the one whose name comes first. */
export function inListOrder(runs: readonly ReadRun[]): readonly StoredRun[] {
  return runs
    .map(({ run }) => run)
    .toSorted((a, b) => Date.parse(b.openedAt) - Date.parse(a.openedAt) || (a.run < b.run ? -1 : 1))
}
