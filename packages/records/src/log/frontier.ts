import { emptyRoot, nodeHash, type TreeHash } from './tree-hash.js'
import type { NodeReader } from './tree-proofs.js'

/** What has to be known of a tree to make it grow: its largest whole subtrees, from the left. */
export interface Frontier {
  readonly size: number
  /** Root of the tree. */
  root(): TreeHash
  /** Puts one more leaf at its right end. */
  push(leaf: TreeHash): void
}

/** Frontier of the first `size` leaves: one read for each bit of `size` that is set. */
export function frontierOf(size: number, node: NodeReader): Frontier {
  const peaks: { readonly level: number; readonly hash: TreeHash }[] = []
  let low = 0
  for (let level = Math.floor(Math.log2(Math.max(size, 1))); level >= 0; level -= 1) {
    const width = 2 ** level
    if (size - low < width) continue
    peaks.push({ level, hash: node(level, low / width) })
    low += width
  }
  let grown = size
  return {
    get size() {
      return grown
    },
    root: () => {
      const last = peaks.at(-1)
      return last === undefined
        ? emptyRoot()
        : peaks.slice(0, -1).reduceRight((right, { hash }) => nodeHash(hash, right), last.hash)
    },
    push: (leaf) => {
      let peak = { level: 0, hash: leaf }
      for (let before = peaks.at(-1); before?.level === peak.level; before = peaks.at(-1)) {
        peaks.pop()
        peak = { level: peak.level + 1, hash: nodeHash(before.hash, peak.hash) }
      }
      peaks.push(peak)
      grown += 1
    }
  }
}
