import { good, type RecordsResult } from '../result.js'
import type { Roster } from '../roster.js'
import { readRoster } from '../roster-file.js'
import type { Site } from '../site.js'
import { checkRuns } from './check-runs.js'
import type { Checkpoint } from './checkpoint.js'
import { type Frontier, frontierOf } from './frontier.js'
import { forkedLog, type LogFinding, shorterLog, tilesDiffer, unfinishedLog } from './log-findings.js'
import { logFolder } from './log-folder.js'
import { LogDamaged, type LogReader } from './log-reader.js'
import { openCheckpointOf } from './open-checkpoint.js'
import { logOrigin } from './origin.js'
import { fromReader } from './read-log.js'
import { leafHash, sameHash, type TreeHash } from './tree-hash.js'
import { treeRoot } from './tree-proofs.js'

export interface CheckLog {
  readonly site: Site
  /** A checkpoint that was kept elsewhere: the whole note. Without one nothing is held against an earlier state. */
  readonly kept?: string
  /** Where that came from, for messages. */
  readonly keptFile?: string
  /** The root key that the caller knows from elsewhere, as base64url or thumbprint. */
  readonly trusted?: string
  /**
   * `all`: each leaf is held against its journal. `new`: only those since the kept checkpoint, which costs what the new
   * runs cost however many there are; that an older journal was removed or rewritten since is then not looked for.
   */
  readonly runs?: 'all' | 'new'
}

/** What came of it. Good where there are no findings. */
export interface LogChecked {
  /** Null: no roster could be read. */
  readonly origin: string | null
  readonly size: number
  /** Worked out anew: from the leaves, or from the kept checkpoint and the leaves since. */
  readonly root: TreeHash
  /** What the kept checkpoint says; null: none was given. */
  readonly kept: Checkpoint | null
  /** Number of the first leaf that was held against its journal. */
  readonly from: number
  readonly findings: readonly LogFinding[]
}

/** Holds the log of a site against a checkpoint and against the journals. Reads only. A checkpoint that cannot be used is a fault. */
export function checkLog(request: CheckLog): RecordsResult<LogChecked> {
  const { site, kept, keptFile = '', trusted, runs = 'all' } = request
  const roster = readRoster(site, trusted)
  if (kept !== undefined && !roster.ok) return roster
  const opened = kept === undefined || !roster.ok ? null : openCheckpointOf(roster.value, kept, keptFile)
  if (opened !== null && !opened.ok) return opened
  return fromReader(site, (reader) =>
    good(checked({ site, reader, roster: roster.ok ? roster.value : null, kept: opened?.value ?? null, runs }))
  )
}

interface Grounds {
  readonly site: Site
  readonly reader: LogReader
  readonly roster: Roster | null
  readonly kept: Checkpoint | null
  readonly runs: 'all' | 'new'
}

function checked({ site, reader, roster, kept, runs }: Grounds): LogChecked {
  const findings: LogFinding[] = []
  const { size } = reader
  if (reader.isUnfinished) findings.push(unfinishedLog(logFolder.leaves(site)))
  if (kept !== null && kept.size > size) findings.push(shorterLog(logFolder.leaves(site), kept.size, size))
  const fits = kept !== null && kept.size <= size
  const beginning = fits && runs === 'new' ? trustedFrontier(reader, kept) : null
  const frontier = beginning ?? frontierOf(0, reader.node)
  const from = frontier.size
  for (const line of reader.lines(from)) {
    if (fits && frontier.size === kept.size && !sameHash(frontier.root(), kept.root)) break
    frontier.push(leafHash(line))
  }
  // Grown over the whole log, unless it parted from what was kept on the way.
  if (fits && frontier.size === kept.size && !sameHash(frontier.root(), kept.root)) {
    findings.push(forkedLog(logFolder.leaves(site), kept.size))
    for (const line of reader.lines(frontier.size)) frontier.push(leafHash(line))
  }
  const root = frontier.root()
  if (!tilesFit(reader, root)) findings.push(tilesDiffer(logFolder.folder(site)))
  findings.push(...checkRuns(site, reader, from, runs))
  return { origin: roster === null ? null : logOrigin(site, roster), size, root, kept, from, findings }
}

/** What the tiles have at the size that was kept, if it is what was kept: then all before it is known to be unchanged. */
function trustedFrontier(reader: LogReader, kept: Checkpoint): Frontier | null {
  try {
    const frontier = frontierOf(kept.size, reader.node)
    return sameHash(frontier.root(), kept.root) ? frontier : null
  } catch (error) {
    if (error instanceof LogDamaged) return null
    throw error
  }
}

function tilesFit(reader: LogReader, root: TreeHash): boolean {
  try {
    return sameHash(treeRoot(reader.size, reader.node), root)
  } catch (error) {
    if (error instanceof LogDamaged) return false
    throw error
  }
}
