import { whereDiskHolds } from '../disk/disk-trouble.js'
import { makeFolderDurably } from '../durable-file.js'
import { good, type RecordsResult } from '../result.js'
import type { Site } from '../site.js'
import { appendSynced } from './append-synced.js'
import { formatLeaf, type Leaf } from './leaf.js'
import { lockLog } from './lock-log.js'
import { logFolder } from './log-folder.js'
import { numberOf } from './log-reader.js'
import { recoverLog, settleLeaves } from './recover-log.js'

export interface LeavesAppended {
  /** Those that were not in the log yet, in their order, with their numbers from 0. */
  readonly added: readonly { readonly number: number; readonly leaf: Leaf }[]
  /** Leaves in the log now. */
  readonly size: number
  /** What an earlier writer had left unfinished and was put right, a sentence each. */
  readonly repaired: readonly string[]
}

/**
 * Adds leaves to the log of a site; one for a run that has a leaf already is passed over. What is `added` is on the disk
 * when this returns. A crash in between leaves a log that the next call puts right: a leaf counts once its end stands in
 * `leaves.ends`, which is written last.
 */
export function appendLeaves(site: Site, leaves: readonly Leaf[]): RecordsResult<LeavesAppended> {
  return whereDiskHolds(logFolder.leaves(site), () => {
    makeFolderDurably(logFolder.folder(site))
    return lockLog(site, () => {
      const recovered = recoverLog(site)
      if (!recovered.ok) return recovered
      const { size, end, repaired } = recovered.value
      const added = notYetIn(site, leaves, size).map((leaf, at) => ({ number: size + at, leaf }))
      if (added.length > 0) {
        const lines = added.map(({ leaf }) => formatLeaf(leaf))
        appendSynced(logFolder.leaves(site), Buffer.from(`${lines.join('\n')}\n`), end)
        settleLeaves(site, { size, end, lines })
      }
      return good({ added, size: size + added.length, repaired })
    })
  })
}

/** Puts right what a crash left in the log, and adds nothing. */
export function repairLog(site: Site): RecordsResult<LeavesAppended> {
  return appendLeaves(site, [])
}

function notYetIn(site: Site, leaves: readonly Leaf[], size: number): readonly Leaf[] {
  const seen = new Set<string>()
  return leaves.filter(({ run }) => {
    if (seen.has(run) || (numberOf(site, run) ?? size) < size) return false
    seen.add(run)
    return true
  })
}
