import { readFileSync } from 'node:fs'
import { basename } from 'node:path'
import { readChain } from '../chain.js'
import { whereDiskHolds } from '../disk/disk-trouble.js'
import { good, type RecordsResult } from '../result.js'
import { layout, type Site } from '../site.js'
import { appendLeaves, type LeavesAppended } from './append-leaves.js'
import { type Leaf, leafOf } from './leaf.js'
import { logFolder } from './log-folder.js'
import { openLogReader } from './log-reader.js'
import { unloggedRuns } from './unlogged-runs.js'

/**
 * Adds the leaves of closed runs that have none: of runs from before there was a log, and of those whose leaf a crash
 * lost. In the order in which they were closed. Reads the names of all runs, and the journals of those alone that have no
 * leaf; one whose chain is broken gets none, because what stands in it may not be what was written.
 */
export function completeLog(site: Site): RecordsResult<LeavesAppended> {
  return whereDiskHolds(logFolder.leaves(site), () => {
    const { size, isUnfinished, logged } = openLogReader(site)
    const leaves = unloggedRuns(site, logged()).flatMap((run) => leafOfJournal(layout.journal(site, run)) ?? [])
    return leaves.length === 0 && !isUnfinished
      ? good({ added: [], size, repaired: [] })
      : appendLeaves(site, leaves.toSorted(byTime))
  })
}

/** The leaf of a journal; null: the run is open or a rehearsal, or its chain is broken. */
export function leafOfJournal(file: string): Leaf | null {
  const { lines, faults, torn } = readChain(readFileSync(file), file, basename(file, '.jsonl'))
  if (faults.length > 0 || torn.length > 0) return null
  return leafOf(
    lines.flatMap(({ entry }) => (entry === null ? [] : [entry])),
    lines.at(-1)?.text ?? ''
  )
}

function byTime(one: Leaf, other: Leaf): number {
  return Date.parse(one.closedAt) - Date.parse(other.closedAt) || (one.run < other.run ? -1 : 1)
}
