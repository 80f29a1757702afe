import type { KeyObject } from 'node:crypto'
import { whereDiskHolds } from '../disk/disk-trouble.js'
import { writeDurably } from '../durable-file.js'
import { publicBytesOf } from '../public-key.js'
import { bad, good, type RecordsResult } from '../result.js'
import type { Roster } from '../roster.js'
import { readRoster } from '../roster-file.js'
import type { Site } from '../site.js'
import { signCheckpoint } from './checkpoint.js'
import { completeLog } from './complete-log.js'
import { frontierOf } from './frontier.js'
import { lockLog } from './lock-log.js'
import { logFolder } from './log-folder.js'
import { openCheckpointOf } from './open-checkpoint.js'
import { logOrigin } from './origin.js'
import { fromReader, lastCheckpoint } from './read-log.js'
import { leafHash, sameHash, type TreeHash } from './tree-hash.js'

export interface SignedLog {
  /** The checkpoint as a signed note, to be kept elsewhere. */
  readonly note: string
  readonly origin: string
  readonly size: number
  /** Leaves that were taken in just now: of closed runs that had none. */
  readonly added: number
  readonly repaired: readonly string[]
}

/**
 * Takes in every closed run, and signs what the log now is. Never a log that does not begin with the one that was signed
 * last: whoever kept that could not tell an honest log from a rewritten one.
 */
export function signLog(site: Site, root: KeyObject): RecordsResult<SignedLog> {
  const roster = readRoster(site)
  if (!roster.ok) return roster
  if (publicBytesOf(root) !== roster.value.root) return notTheRoot(site)
  const complete = completeLog(site)
  if (!complete.ok) return complete
  return lockLog(site, () => {
    const tree = rootToSign(site, roster.value)
    if (!tree.ok) return tree
    return whereDiskHolds(logFolder.checkpoint(site), () => {
      const origin = logOrigin(site, roster.value)
      const note = signCheckpoint({ origin, ...tree.value }, root)
      // Kept by its size first, so that the tiles that belong to it stay.
      writeDurably(logFolder.signed(site, tree.value.size), note)
      writeDurably(logFolder.checkpoint(site), note)
      const { added, repaired } = complete.value
      return good({ note, origin, size: tree.value.size, added: added.length, repaired })
    })
  })
}

/** Worked out from the leaves since the checkpoint that was signed last, not from the tiles alone. */
function rootToSign(site: Site, roster: Roster): RecordsResult<{ readonly size: number; readonly root: TreeHash }> {
  const last = lastCheckpoint(site)
  const opened = last === null ? null : openCheckpointOf(roster, last, logFolder.checkpoint(site))
  if (opened !== null && !opened.ok) return opened
  return fromReader(site, (reader) => {
    const before = opened?.value ?? null
    if (before !== null && before.size > reader.size) return notItsContinuation(site)
    const frontier = frontierOf(before?.size ?? 0, reader.node)
    if (before !== null && !sameHash(frontier.root(), before.root)) return notItsContinuation(site)
    for (const line of reader.lines(frontier.size)) frontier.push(leafHash(line))
    return good({ size: frontier.size, root: frontier.root() })
  })
}

function notItsContinuation(site: Site): RecordsResult<never> {
  return bad({
    id: 'log-forked',
    file: logFolder.leaves(site),
    what: 'The log does not begin with the one that was signed last: leaves were removed, changed, put in or moved.',
    danger: 'A signature over it would cover up that closed runs were tampered with.',
    mend: 'Nothing was signed. Put back the newest copy of `log/`, or see what `log check` says.'
  })
}

function notTheRoot(site: Site): RecordsResult<never> {
  return bad({
    id: 'not-the-root-key',
    file: logFolder.checkpoint(site),
    what: 'The key is not the root key of this site.',
    danger: 'Nobody who holds the key of the site could check the checkpoint.',
    mend: 'Unlock the key `site-root` of this site folder.'
  })
}
