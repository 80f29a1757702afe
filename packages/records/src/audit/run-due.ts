import type { Evidence } from './evidence.js'
import { hangingLocks, tellLock } from './hanging-locks.js'
import { hangingPastShift } from './past-shift.js'
import type { HangingLock } from './report.js'
import { count, type Found } from './verdict.js'

/** What of this run has to be seen to now: whether it is still open, and which locks still hang by it. */
export function runDue(
  evidence: Evidence,
  at: string | null
): { readonly found: readonly Found[]; readonly checked: readonly string[] } {
  const { summary } = evidence
  if (summary?.mode === 'rehearsal') return { found: [], checked: ['A rehearsal leaves nothing behind'] }
  const locks = hangingLocks(evidence)
  const open = summary === null || summary.status === 'running' || summary.status === 'paused'
  const found: Found[] = open ? [runOpen(evidence)] : []
  if (locks === null) return { found: [...found, noMachine], checked: [] }
  if (open && at !== null) found.push(...hangingPastShift(evidence, at))
  const told = new Set<string>()
  for (const lock of open ? [] : locks) {
    // Two records of one lock are one lock.
    const what = leftWhat(lock)
    if (!told.has(what)) found.push(lockLeft(evidence, what, lock))
    told.add(what)
  }
  return { found, checked: [`${count(locks.length, 'lock hangs', 'locks hang')} by this record`] }
}

function runOpen({ summary, entries }: Evidence): Found {
  return {
    id: 'run-open',
    weight: 'doubt',
    seq: entries.at(-1)?.seq ?? null,
    what:
      summary === null
        ? 'Whether the run was closed cannot be told.'
        : `The run is ${summary.status === 'paused' ? 'paused' : 'open'} since ${summary.openedAt}; its last entry is of ${summary.lastAt}.`,
    danger: 'Someone may be at work there now, or may have gone and left the equipment as it is.',
    mend: 'Ask who is at work there; have the run gone on with, or stopped.'
  }
}

/** What is said of a lock that was left; the finding is known by it once a later run took the lock off. */
export function leftWhat(lock: HangingLock): string {
  return `The run was closed and still has ${tellLock(lock)}.`
}

function lockLeft({ entries }: Evidence, what: string, { since, asOf }: HangingLock): Found {
  return {
    id: 'lock-left',
    weight: asOf === null ? 'fault' : 'doubt',
    seq: entries.find((entry) => entry.at === since)?.seq ?? null,
    what,
    danger: 'Whoever comes after cannot tell whether somebody is still at work under that lock.',
    mend: 'Go and look. In a later run of the issued procedure its owner takes it off, and has it recorded there as a lock of this run, or by the three conditions of 29 CFR 1910.147(e)(3) where the owner is away; the audit then says by which run it came off.'
  }
}

const noMachine: Found = {
  id: 'no-machine',
  weight: 'doubt',
  seq: null,
  what: 'Without the machine it cannot be told which locks still hang.',
  danger: 'Somebody may be at work under a lock of which nothing is known here.',
  mend: 'Put the machine of that digest back into `issued/` or `drafts/`, and go and look.'
}
