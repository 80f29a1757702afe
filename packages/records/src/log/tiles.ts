import { nodeHash, type TreeHash } from './tree-hash.js'
import type { NodeReader } from './tree-proofs.js'

/** Tiles of the C2SP tlog-tiles form: 256 hashes of one level of the tree, every eighth level. */
export interface Tile {
  /** 0: leaf hashes; each level above holds the roots of whole tiles of the one below. */
  readonly level: number
  /** From the left, from 0. */
  readonly index: number
  /** Hashes in it: 256, or fewer in the last tile of a level. */
  readonly width: number
}

/** Bytes of one hash. */
export const hashBytes = 32
/** Hashes of a whole tile. */
export const tileWidth = 256
const tileHeight = 8

/** `tile/0/x001/x234/067`, and `.p/<width>` behind it where it is not whole. */
export function tilePath({ level, index, width }: Tile): string {
  return `tile/${level}/${numberPath(index)}${width === tileWidth ? '' : `.p/${width}`}`
}

/** Three digits a folder, each but the last with an `x` before it. */
function numberPath(index: number): string {
  const digits = String(index)
  const groups = digits.padStart(Math.ceil(digits.length / 3) * 3, '0').match(/\d{3}/g) ?? []
  return groups.map((group, at) => (at === groups.length - 1 ? group : `x${group}`)).join('/')
}

/** The last tile of each level of a tree, where that level has one that is not whole. */
export function openTiles(size: number): readonly Tile[] {
  return levelsOf(size).flatMap(({ level, hashes }) => {
    const width = hashes % tileWidth
    return width === 0 ? [] : [{ level, index: Math.floor(hashes / tileWidth), width }]
  })
}

/**
 * Every tile that the proofs about these leaves in a tree of `size` can ask for: two a level. A store that reads
 * asynchronously fetches these first.
 */
export function tilesOnPath(leaves: readonly number[], size: number): readonly Tile[] {
  const named = new Map<string, Tile>()
  const add = (tile: Tile): Map<string, Tile> => named.set(tilePath(tile), tile)
  for (const { level, hashes } of levelsOf(size)) {
    for (const leaf of leaves) {
      const index = Math.floor(leaf / tileWidth ** (level + 1))
      const width = Math.min(hashes - index * tileWidth, tileWidth)
      if (width > 0) add({ level, index, width })
    }
  }
  for (const tile of openTiles(size)) add(tile)
  return [...named.values()]
}

/** How many hashes each level of tiles holds. */
function levelsOf(size: number): readonly { readonly level: number; readonly hashes: number }[] {
  const levels: { readonly level: number; readonly hashes: number }[] = []
  for (let [level, hashes] = [0, size]; hashes > 0; level += 1, hashes = Math.floor(hashes / tileWidth)) {
    levels.push({ level, hashes })
  }
  return levels
}

/** The nodes of a tree of `size` leaves, out of its tiles. `read` gives the bytes of a tile of at least that width. */
export function nodesInTiles(size: number, read: (tile: Tile) => Uint8Array): NodeReader {
  return (level, index) => {
    const tileLevel = Math.floor(level / tileHeight)
    const inside = level % tileHeight
    const first = index * 2 ** inside
    const tile = Math.floor(first / tileWidth)
    const hashes = Math.floor(size / tileWidth ** tileLevel)
    const bytes = read({ level: tileLevel, index: tile, width: Math.min(hashes - tile * tileWidth, tileWidth) })
    return subtreeRoot(bytes, first - tile * tileWidth, 2 ** inside)
  }
}

/** Root over `amount` hashes of a tile, a power of two. */
export function subtreeRoot(bytes: Uint8Array, from = 0, amount = bytes.length / hashBytes): TreeHash {
  if (amount === 1) return bytes.subarray(from * hashBytes, (from + 1) * hashBytes)
  const half = amount / 2
  return nodeHash(subtreeRoot(bytes, from, half), subtreeRoot(bytes, from + half, half))
}
