import { closeSync, existsSync, fstatSync, openSync, readdirSync, readFileSync, readSync } from 'node:fs'
import { dirname } from 'node:path'
import { sha256Hex } from '../digest.js'
import type { Site } from '../site.js'
import { endBytes, logFolder } from './log-folder.js'
import { hashBytes, nodesInTiles, type Tile, tilesOnPath, tileWidth } from './tiles.js'
import type { NodeReader } from './tree-proofs.js'

/** The log as it lies in a folder. Nothing in it is believed: whoever needs to be sure works its root out anew. */
export interface LogReader {
  /** Leaves that were added to the end. */
  readonly size: number
  /** Lines from number `from` (0) to before `to`, without their line feeds; fewer where the file is shorter. */
  lines(from: number, to?: number): readonly string[]
  /** A crash left something that the next writer puts right. */
  readonly isUnfinished: boolean
  /** Number of the leaf of a run; null: it has none. Reads one small file. */
  numberOf(run: string): number | null
  /** Names of all runs that have a leaf. */
  logged(): ReadonlySet<string>
  readonly node: NodeReader
}

/** Throws what the disk says; a tile that is missing or short throws `LogDamaged`. */
export function openLogReader(site: Site): LogReader {
  const counted = sizeOf(logFolder.ends(site))
  const size = Math.floor(counted / endBytes)
  const tiles = new Map<string, Uint8Array>()
  const endOf = (leaf: number): number => (leaf === 0 ? 0 : readEnd(site, leaf - 1))
  return {
    size,
    lines: (from, to = size) => {
      const until = Math.min(to, size)
      if (from >= until) return []
      const [start, end] = [endOf(from), endOf(until)]
      const text = readSpan(logFolder.leaves(site), start, end - start).toString('utf8')
      return text.split('\n').slice(0, -1)
    },
    numberOf: (run) => {
      const number = numberOf(site, run)
      return number === null || number >= size ? null : number
    },
    isUnfinished:
      counted % endBytes !== 0 || sizeOf(logFolder.leaves(site)) !== endOf(size) || !tilesAreThere(site, size),
    logged: () => loggedRuns(site, size),
    node: nodesInTiles(size, (tile) => {
      const name = `${tile.level}/${tile.index}`
      const bytes = tiles.get(name) ?? readTile(site, tile)
      tiles.set(name, bytes)
      return bytes
    })
  }
}

/** A part of the log that is made of the leaves does not fit them, or is gone. */
export class LogDamaged extends Error {
  override readonly name = 'LogDamaged'
}

/** Which file tells the number of a run's leaf. */
export function bucketOf(run: string): string {
  return sha256Hex(run).slice(0, 2)
}

/** The number that was noted last for a run; null: none was. A note is made before its leaf counts. */
export function numberOf(site: Site, run: string): number | null {
  const file = logFolder.numbers(site, bucketOf(run))
  if (!existsSync(file)) return null
  // A line that a crash cut off has no line feed yet, and does not count.
  const lines = readFileSync(file, 'utf8').split('\n').slice(0, -1)
  const line = lines.findLast((one) => one.startsWith(`${run} `))
  return line === undefined ? null : Number(line.slice(run.length + 1))
}

function loggedRuns(site: Site, size: number): ReadonlySet<string> {
  const folder = dirname(logFolder.numbers(site, '00'))
  const buckets = existsSync(folder) ? readdirSync(folder).filter((name) => /^[0-9a-f]{2}$/.test(name)) : []
  const runs = new Set<string>()
  for (const bucket of buckets) {
    // Behind the last line feed stands nothing, or what a crash cut off.
    for (const line of readFileSync(logFolder.numbers(site, bucket), 'utf8').split('\n').slice(0, -1)) {
      const space = line.indexOf(' ')
      if (Number(line.slice(space + 1)) < size) runs.add(line.slice(0, space))
    }
  }
  return runs
}

/** The tile of that width; else a wider one of its place, whose beginning it is. */
export function readTile(site: Site, tile: Tile): Uint8Array {
  const [exact, whole] = [logFolder.tile(site, tile), logFolder.tile(site, { ...tile, width: tileWidth })]
  const file = [exact, whole].find(existsSync) ?? widerPart(site, tile)
  const bytes = file === null ? new Uint8Array() : readFileSync(file)
  if (bytes.length < tile.width * hashBytes) {
    throw new LogDamaged(`tile ${tile.level}/${tile.index} is missing or short`)
  }
  return bytes.subarray(0, tile.width * hashBytes)
}

/** Whether the tiles that a log of that size ends in can be read; a few, however large it is. */
export function tilesAreThere(site: Site, size: number): boolean {
  try {
    for (const tile of tilesOnPath(size === 0 ? [] : [0, size - 1], size)) readTile(site, tile)
    return true
  } catch (error) {
    if (error instanceof LogDamaged) return false
    throw error
  }
}

/** What a process that was killed while it added leaves may have left: a part that is ahead of the count. */
function widerPart(site: Site, tile: Tile): string | null {
  const folder = dirname(logFolder.tile(site, { ...tile, width: 1 }))
  if (!existsSync(folder)) return null
  const widths = readdirSync(folder).flatMap((name) => (/^\d+$/.test(name) ? [Number(name)] : []))
  const wider = widths.filter((width) => width >= tile.width)
  return wider.length === 0 ? null : logFolder.tile(site, { ...tile, width: Math.min(...wider) })
}

/** Where the line of a leaf ends, its line feed included. */
export function readEnd(site: Site, leaf: number): number {
  const bytes = readSpan(logFolder.ends(site), leaf * endBytes, endBytes)
  return bytes.length < endBytes ? 0 : Number(bytes.readBigUInt64BE())
}

export function sizeOf(file: string): number {
  if (!existsSync(file)) return 0
  const handle = openSync(file, 'r')
  try {
    return fstatSync(handle).size
  } finally {
    closeSync(handle)
  }
}

/** Bytes of a file from there on; fewer where it ends before. */
export function readSpan(file: string, from: number, amount: number): Buffer {
  if (!existsSync(file)) return Buffer.alloc(0)
  const handle = openSync(file, 'r')
  try {
    const bytes = Buffer.alloc(Math.max(0, Math.min(amount, fstatSync(handle).size - from)))
    let done = 0
    while (done < bytes.length) {
      const read = readSync(handle, bytes, done, bytes.length - done, from + done)
      if (read === 0) break
      done += read
    }
    return bytes.subarray(0, done)
  } finally {
    closeSync(handle)
  }
}
