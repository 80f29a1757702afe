import { existsSync, readFileSync } from 'node:fs'
import { dirname } from 'node:path'
import { diskInUse } from '../disk/disk-in-use.js'
import { makeFolderDurably, writeDurably } from '../durable-file.js'
import { bad, good, type RecordsResult } from '../result.js'
import type { Site } from '../site.js'
import { appendSynced, cutFile } from './append-synced.js'
import { parseLeaf } from './leaf.js'
import { endBytes, logFolder } from './log-folder.js'
import { bucketOf, numberOf, readEnd, readSpan, sizeOf, tilesAreThere } from './log-reader.js'
import { mendCount } from './mend-count.js'
import { openTileWriter } from './tile-writer.js'
import { leafHash } from './tree-hash.js'

/** Where a log stands that is in order. */
export interface Recovered {
  readonly size: number
  /** Bytes of `leaves.jsonl`. */
  readonly end: number
  readonly repaired: readonly string[]
}

/** Leaves whose lines are on the disk, of which nothing else is yet. */
interface Unsettled {
  /** Leaves that count already, and where the last of them ends. */
  readonly size: number
  readonly end: number
  readonly lines: readonly string[]
}

/**
 * Puts right what a crash left: whole leaves behind the last one that counts are made to count; a line that was cut off
 * is set aside (its run is closed on record, so its leaf is made again); parts that are made of the leaves are made anew
 * where they are gone. Called under the lock of the log.
 */
export function recoverLog(site: Site): RecordsResult<Recovered> {
  const repaired: string[] = []
  const size = countOf(site, repaired)
  const count = mendCount(site, size)
  if (count === 'gone') return logCut(site)
  if (count === 'mended') repaired.push('The count of the leaves did not fit them and was made anew from them.')
  const end = size === 0 ? 0 : readEnd(site, size - 1)
  const found = sizeOf(logFolder.leaves(site))
  if (size > 0 && !existsSync(dirname(logFolder.numbers(site, '00')))) {
    numberLeaves(site, 0, linesOf(readSpan(logFolder.leaves(site), 0, end)))
    repaired.push('The list of which leaf each run has was gone and was made anew.')
  }
  if (!tilesAreThere(site, size)) {
    const tiles = openTileWriter(site, 0)
    for (const line of linesOf(readSpan(logFolder.leaves(site), 0, end))) tiles.push(leafHash(line))
    tiles.finish()
    repaired.push('Tiles of the log were gone or cut off; all were made anew from the leaves.')
  }
  if (found === end) return good({ size, end, repaired })
  const tail = readSpan(logFolder.leaves(site), end, found - end)
  const lines = wholeLeaves(site, tail)
  const whole = lines.reduce((sum, line) => sum + Buffer.byteLength(line) + 1, 0)
  if (whole < tail.length) repaired.push(setAside(site, tail.subarray(whole)))
  // What was read may not be on the disk, where a sync failed: it is written once more over itself.
  cutFile(logFolder.leaves(site), end, tail.subarray(0, whole))
  if (lines.length > 0) {
    settleLeaves(site, { size, end, lines })
    const what = lines.length === 1 ? 'One leaf was' : `${lines.length} leaves were`
    repaired.push(`${what} written but not yet counted when the computer or the process stopped; counted now.`)
  }
  return good({ size: size + lines.length, end: end + whole, repaired })
}

/** Everything that is made of new leaves, and last of all the count. */
export function settleLeaves(site: Site, { size, end, lines }: Unsettled): void {
  const tiles = openTileWriter(site, size)
  for (const line of lines) tiles.push(leafHash(line))
  tiles.finish()
  numberLeaves(site, size, lines)
  const ends = Buffer.alloc(lines.length * endBytes)
  let at = end
  lines.forEach((line, index) => {
    at += Buffer.byteLength(line) + 1
    ends.writeBigUInt64BE(BigInt(at), index * endBytes)
  })
  appendSynced(logFolder.ends(site), ends, size * endBytes)
}

/** A count that was cut off in the middle of a number is cut back to the last whole one. */
function countOf(site: Site, repaired: string[]): number {
  const bytes = sizeOf(logFolder.ends(site))
  const size = Math.floor(bytes / endBytes)
  if (bytes % endBytes !== 0) {
    cutFile(logFolder.ends(site), size * endBytes)
    repaired.push('The count of the leaves had been cut off by a crash and was put right.')
  }
  return size
}

/** Leaves up to the first line that is none, or that is of a run which has one already. */
function wholeLeaves(site: Site, tail: Buffer): readonly string[] {
  const seen = new Set<string>()
  const lines: string[] = []
  for (const line of linesOf(tail)) {
    const read = parseLeaf(line)
    if ('fault' in read || seen.has(read.leaf.run)) break
    const number = numberOf(site, read.leaf.run)
    if (number !== null && number < countedIn(site)) break
    seen.add(read.leaf.run)
    lines.push(line)
  }
  return lines
}

const countedIn = (site: Site): number => Math.floor(sizeOf(logFolder.ends(site)) / endBytes)

function numberLeaves(site: Site, from: number, lines: readonly string[]): void {
  const buckets = new Map<string, string>()
  lines.forEach((line, at) => {
    const read = parseLeaf(line)
    if ('fault' in read) return
    const bucket = bucketOf(read.leaf.run)
    buckets.set(bucket, `${buckets.get(bucket) ?? ''}${read.leaf.run} ${from + at}\n`)
  })
  for (const [bucket, text] of buckets) {
    const file = logFolder.numbers(site, bucket)
    makeFolderDurably(dirname(file))
    const before = existsSync(file) ? readFileSync(file, 'utf8') : ''
    const whole = before.slice(0, before.lastIndexOf('\n') + 1)
    // After a crash the same lines may stand there already.
    const missing = linesOf(Buffer.from(text)).filter((line) => !whole.split('\n').includes(line))
    if (missing.length > 0) appendSynced(file, Buffer.from(`${missing.join('\n')}\n`), Buffer.byteLength(whole))
  }
}

function setAside(site: Site, torn: Uint8Array): string {
  const disk = diskInUse()
  let n = 1
  while (disk.exists(logFolder.torn(site, n))) n += 1
  writeDurably(logFolder.torn(site, n), torn)
  return `${torn.length} bytes at the end of the log were no whole leaf; they are kept in \`leaves.torn-${n}\`, and the leaf is made again from its run.`
}

function linesOf(bytes: Buffer): readonly string[] {
  return bytes.toString('utf8').split('\n').slice(0, -1)
}

function logCut(site: Site): RecordsResult<never> {
  return bad({
    id: 'log-cut',
    file: logFolder.leaves(site),
    what: 'The leaves of the site log end before the place where the last of them ended.',
    danger: 'Closed runs were taken out of the log, or its file was put back to an older copy.',
    mend: 'Nothing was added. Put back the newest copy of `log/`, and check it against a checkpoint that was kept elsewhere.'
  })
}
