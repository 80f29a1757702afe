import type { Entry } from '../entry.js'
import type { Site } from '../site.js'
import { appendLeaves } from './append-leaves.js'
import { completeLog } from './complete-log.js'
import { leafOf } from './leaf.js'

/**
 * Adds the leaf of a run whose closing is on the disk. Where the log cannot be written now, the run is closed all the
 * same: the leaf is made again from its journal at the next chance, and until then `log check` tells that it is missing.
 */
export function logClosedRun(site: Site, entries: readonly Entry[], lastLine: string): void {
  const leaf = leafOf(entries, lastLine)
  if (leaf !== null) appendLeaves(site, [leaf])
}

/** The next chance. Work is not held up by a log that cannot be written. */
export function catchUpLog(site: Site): void {
  completeLog(site)
}
