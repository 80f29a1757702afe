import { existsSync, readFileSync } from 'node:fs'
import { basename } from 'node:path'
import type { PersonId } from '@lockwright/machine'
import { readChain } from '../chain.js'
import type { Entry, RunId } from '../entry.js'
import { journalFiles, summarize } from '../list-runs.js'
import { type Leaf, parseLeaf } from '../log/leaf.js'
import { readSpan } from '../log/log-reader.js'
import { fromReader } from '../log/read-log.js'
import { unloggedRuns } from '../log/unlogged-runs.js'
import { good } from '../result.js'
import type { RunSummary } from '../run-types.js'
import { layout, type Site } from '../site.js'
import { hungAfter, hungLocks } from '../store/hung-locks.js'
import { isThatLock, type LockElsewhere } from './lock-elsewhere.js'

/**
 * Locks that hang on the equipment of this tag by the records of other runs: open ones, paused ones, and closed ones
 * that left them on. Drafts count, for their locks are real; rehearsals hang none. A lock that was left on is gone once
 * a later issued run put it on record again, or took it off. Closed runs are read from the leaves of the site log; the
 * journals are read of open runs, and of later ones where something was left on. Throws what the disk says.
 */
export function locksElsewhere(site: Site, equipment: string, exceptRun: string): readonly LockElsewhere[] {
  const { leaves, journals } = runsOn(site, equipment)
  const others = journals.filter(({ summary }) => summary.run !== exceptRun)
  const left = [
    ...leaves.filter(({ run }) => run !== exceptRun).flatMap(leftBy),
    ...others.filter(({ summary }) => isClosed(summary)).flatMap(hangingIn)
  ]
  const open = others.filter(({ summary }) => !isClosed(summary)).flatMap(hangingIn)
  if (left.length === 0) return inOrder(open)
  const first = Math.min(...left.map(({ closedAt }) => Date.parse(closedAt ?? '')))
  const later = [
    ...leaves
      .filter(({ run, closedAt, mode }) => run !== exceptRun && mode === 'issued' && Date.parse(closedAt) > first)
      .flatMap(({ run }) => journalOf(layout.journal(site, run)) ?? []),
    ...others.filter(({ summary }) => summary.mode === 'issued')
  ]
  const cleared = later.flatMap(({ entries }) => clearedBy(entries))
  return inOrder([...left.filter((one) => !cleared.some((by) => clears(by, one))), ...open])
}

/** A lock that a run put on record, or took off for the run that left it. */
interface Clearing {
  readonly point: string
  readonly lock: string
  readonly person: string
  readonly at: string
  /** Run whose lock it took off; null: it hung it anew. */
  readonly from: string | null
}

/** What an entry says of locks that were left on by others. */
export function clearedBy(entries: readonly Entry[]): readonly Clearing[] {
  let hung = hungLocks([])
  return entries.flatMap((entry): readonly Clearing[] => {
    const { event, at } = entry
    if (event.kind === 'lock-removed' && event.from !== undefined) {
      const { run, lock } = event.from
      return [{ point: event.point, lock, person: event.owner, at, from: run }]
    }
    const before = hung
    hung = hungAfter(hung, entry)
    return hung.flatMap((one) => (before.includes(one) ? [] : [{ ...one, at, from: null }]))
  })
}

/** Whether that is the end of a lock that a closed run left on. */
export function clears(by: Clearing, left: LockElsewhere): boolean {
  if (!isThatLock(by, left) || left.closedAt === null) return false
  return by.from === null ? Date.parse(by.at) > Date.parse(left.closedAt) : by.from === left.run
}

interface ReadRun {
  readonly summary: RunSummary
  readonly entries: readonly Entry[]
}

/** Leaves of closed runs on this equipment, and the journals of all others on it. */
function runsOn(
  site: Site,
  equipment: string
): { readonly leaves: readonly Leaf[]; readonly journals: readonly ReadRun[] } {
  const key = `"equipment":${JSON.stringify(equipment)}`
  const read = fromReader(site, (reader) => {
    const leaves = reader.lines(0).flatMap((line) => {
      if (!line.includes(key)) return []
      const parsed = parseLeaf(line)
      return 'leaf' in parsed && parsed.leaf.equipment === equipment ? [parsed.leaf] : []
    })
    return good({ leaves, unlogged: unloggedRuns(site, reader.logged()) })
  })
  // Without a log that can be read, the journals themselves have to do.
  const leaves = read.ok ? read.value.leaves : []
  const files = read.ok ? read.value.unlogged.map((run) => layout.journal(site, run)) : journalFiles(site)
  const journals = files.flatMap((file) => {
    const begins = readSpan(file, 0, beginning).toString('utf8')
    const isOther = begins.includes('\n') && !begins.slice(0, begins.indexOf('\n')).includes(key)
    const found = isOther ? null : journalOf(file)
    return found !== null && found.summary.equipment === equipment && found.summary.mode !== 'rehearsal' ? [found] : []
  })
  return { leaves, journals }
}

/** Bytes of a journal in which its first line ends, as a rule. */
const beginning = 4096

function journalOf(file: string): ReadRun | null {
  if (!existsSync(file)) return null
  const reading = readChain(readFileSync(file), file, basename(file, '.jsonl'))
  const summary = summarize(reading, file)
  return summary === null
    ? null
    : { summary, entries: reading.lines.flatMap(({ entry }) => (entry === null ? [] : [entry])) }
}

function leftBy({ run, status, closedAt, locks }: Leaf): readonly LockElsewhere[] {
  return locks.map(({ by, point, lock, since }) => ({
    point,
    lock,
    person: by as PersonId,
    since,
    run,
    status,
    closedAt
  }))
}

function hangingIn({ summary, entries }: ReadRun): readonly LockElsewhere[] {
  const closedAt = isClosed(summary) ? summary.lastAt : null
  return hungLocks(entries).map(({ point, lock, person, since }) => ({
    point,
    lock,
    person: person as PersonId,
    since,
    run: summary.run as RunId,
    status: summary.status,
    closedAt
  }))
}

const isClosed = ({ status }: RunSummary): boolean => status === 'stopped' || status === 'finished'

function inOrder(locks: readonly LockElsewhere[]): readonly LockElsewhere[] {
  return locks.toSorted((a, b) => Date.parse(a.since) - Date.parse(b.since))
}
