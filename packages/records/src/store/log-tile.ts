import { type Tile, tileWidth } from '../log/tiles.js'
import { leafHash, nodeHash, type TreeHash } from '../log/tree-hash.js'

/** Hashes of a tile, worked out from the leaves themselves; null: there are not so many. For stores that keep no hashes. */
export function tileOfLeaves(leaves: readonly string[], { level, index, width }: Tile): Uint8Array | null {
  const span = tileWidth ** level
  const first = index * tileWidth * span
  if (width < 1 || width > tileWidth || first + width * span > leaves.length) return null
  const hashes = Array.from({ length: width }, (_, at) => {
    const from = first + at * span
    return rootOf(leaves.slice(from, from + span))
  })
  return Buffer.concat(hashes)
}

/** Of a power of two of leaves (RFC 9162, section 2.1.1). */
function rootOf(leaves: readonly string[]): TreeHash {
  if (leaves.length === 1) return leafHash(Buffer.from(leaves[0] ?? ''))
  const half = leaves.length / 2
  return nodeHash(rootOf(leaves.slice(0, half)), rootOf(leaves.slice(half)))
}
