import { existsSync, readFileSync } from 'node:fs'
import { whereDiskHolds } from '../disk/disk-trouble.js'
import { bad, good, type RecordsResult } from '../result.js'
import type { Site } from '../site.js'
import { type Leaf, parseLeaf } from './leaf.js'
import { logFolder } from './log-folder.js'
import { LogDamaged, type LogReader, openLogReader } from './log-reader.js'
import type { TreeHash } from './tree-hash.js'
import { treeRoot } from './tree-proofs.js'

export interface NumberedLeaf {
  /** From 0. */
  readonly number: number
  readonly leaf: Leaf
}

/** The log of a site as it lies there; believed in nothing until `checkLog` has looked at it. */
export interface SiteLog {
  readonly size: number
  /** Root by its tiles. */
  readonly root: TreeHash
  /** The checkpoint that was signed last, as a note; null: none was. */
  readonly checkpoint: string | null
}

/** Reads what there is, without changing anything. A site without a log has one of size 0. */
export function readLog(site: Site): RecordsResult<SiteLog> {
  return fromReader(site, (reader) =>
    good({ size: reader.size, root: treeRoot(reader.size, reader.node), checkpoint: lastCheckpoint(site) })
  )
}

/** Leaves from number `size` on: what came in since a checkpoint of that size. Reads no others. */
export function leavesAfter(site: Site, size: number, to?: number): RecordsResult<readonly NumberedLeaf[]> {
  return fromReader(site, (reader) => {
    const leaves: NumberedLeaf[] = []
    for (const [at, line] of reader.lines(size, to).entries()) {
      const read = parseLeaf(line)
      if ('fault' in read) return noLeaf(site, size + at + 1, read.fault)
      leaves.push({ number: size + at, leaf: read.leaf })
    }
    return good(leaves)
  })
}

/** The leaf of a run; null: it has none. Costs the same however large the log is. */
export function findLeaf(site: Site, run: string): RecordsResult<NumberedLeaf | null> {
  return fromReader(site, (reader) => {
    const number = reader.numberOf(run)
    if (number === null) return good(null)
    const found = leavesAfter(site, number, number + 1)
    if (!found.ok) return found
    const [leaf] = found.value
    return good(leaf?.leaf.run === run ? leaf : null)
  })
}

export function lastCheckpoint(site: Site): string | null {
  const file = logFolder.checkpoint(site)
  return existsSync(file) ? readFileSync(file, 'utf8') : null
}

/** Reads the log; damage and a disk that refuses come back as faults. */
export function fromReader<Value>(site: Site, body: (reader: LogReader) => RecordsResult<Value>): RecordsResult<Value> {
  return whereDiskHolds(logFolder.folder(site), () => {
    try {
      return body(openLogReader(site))
    } catch (error) {
      if (error instanceof LogDamaged) return tilesGone(site, error.message)
      throw error
    }
  })
}

function tilesGone(site: Site, why: string): RecordsResult<never> {
  return bad({
    id: 'log-tiles',
    file: logFolder.folder(site),
    what: `A part of the site log that is made of its leaves cannot be used: ${why}.`,
    danger: 'No proof can be made of it. The leaves themselves are not touched by that.',
    mend: `Remove \`log/tile\`; \`log checkpoint\` makes it anew from the leaves.`
  })
}

function noLeaf(site: Site, line: number, why: string): RecordsResult<never> {
  return bad({
    id: 'leaf-unreadable',
    file: logFolder.leaves(site),
    line,
    what: `Leaf ${line - 1} of the site log is not what was written: ${why}.`,
    danger: 'What run it stood for, and what hung when that was closed, cannot be told.',
    mend: 'Put back the newest copy of `log/`, and check it against a checkpoint that was kept elsewhere.'
  })
}
