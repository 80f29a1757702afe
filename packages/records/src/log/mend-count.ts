import { writeDurably } from '../durable-file.js'
import type { Site } from '../site.js'
import { parseLeaf } from './leaf.js'
import { endBytes, logFolder } from './log-folder.js'
import { numberOf, readEnd, readSpan, sizeOf } from './log-reader.js'

const lineEnd = 0x0a

/**
 * Whether `leaves.ends` ends where the last leaf that counts ends. Where it does not, a disk or somebody changed it: then
 * it is made anew from the leaves, as many as it counted, so that no leaf that counts is taken for the rest of a crash.
 * `gone`: there are fewer leaves than it counted.
 */
export function mendCount(site: Site, size: number): 'fits' | 'mended' | 'gone' {
  if (size === 0 || lastFits(site, size)) return 'fits'
  const leaves = readSpan(logFolder.leaves(site), 0, sizeOf(logFolder.leaves(site)))
  const ends = Buffer.alloc(size * endBytes)
  let at = 0
  for (let leaf = 0; leaf < size; leaf += 1) {
    at = leaves.indexOf(lineEnd, at) + 1
    if (at === 0) return 'gone'
    ends.writeBigUInt64BE(BigInt(at), leaf * endBytes)
  }
  const before = readSpan(logFolder.ends(site), 0, size * endBytes)
  if (before.equals(ends)) return 'fits'
  writeDurably(logFolder.ends(site), ends)
  return 'mended'
}

function lastFits(site: Site, size: number): boolean {
  const start = size === 1 ? 0 : readEnd(site, size - 2)
  const end = readEnd(site, size - 1)
  if (end <= start || end > sizeOf(logFolder.leaves(site))) return false
  const line = readSpan(logFolder.leaves(site), start, end - start)
  if (line.indexOf(lineEnd) !== line.length - 1) return false
  const read = parseLeaf(line.subarray(0, -1).toString('utf8'))
  // A list of numbers that is gone is made anew afterwards.
  return 'leaf' in read && [null, size - 1].includes(numberOf(site, read.leaf.run))
}
