import { existsSync } from 'node:fs'
import { diskInUse } from '../disk/disk-in-use.js'
import { writeDurably } from '../durable-file.js'
import type { Site } from '../site.js'
import { logFolder } from './log-folder.js'
import { readTile } from './log-reader.js'
import { openTiles, subtreeRoot, type Tile, tileWidth } from './tiles.js'
import type { TreeHash } from './tree-hash.js'

/** The tiles of a log that grows. What was pushed is on the disk once `finish` returns. */
export interface TileWriter {
  push(leaf: TreeHash): void
  finish(): void
}

/** Goes on where a tree of `size` leaves ends; reads the last tile of each level. */
export function openTileWriter(site: Site, size: number): TileWriter {
  const before = openTiles(size)
  const levels: Level[] = []
  for (const tile of before) levels[tile.level] = { index: tile.index, hashes: hashesOf(readTile(site, tile)) }

  const at = (level: number): Level => {
    levels[level] ??= { index: Math.floor(size / tileWidth ** (level + 1)), hashes: [] }
    return levels[level]
  }
  const put = (level: number, hash: TreeHash): void => {
    const open = at(level)
    open.hashes.push(hash)
    if (open.hashes.length < tileWidth) return
    const bytes = Buffer.concat(open.hashes)
    writeDurably(logFolder.tile(site, { level, index: open.index, width: tileWidth }), bytes)
    levels[level] = { index: open.index + 1, hashes: [] }
    put(level + 1, subtreeRoot(bytes))
  }
  return {
    push: (leaf) => put(0, leaf),
    finish: () => {
      levels.forEach(({ index, hashes }, level) => {
        if (hashes.length > 0) {
          writeDurably(logFolder.tile(site, { level, index, width: hashes.length }), Buffer.concat(hashes))
        }
      })
      const kept = existsSync(logFolder.signed(site, size))
      for (const tile of before) if (!kept && isPast(tile, levels)) diskInUse().remove(logFolder.tile(site, tile))
    }
  }
}

interface Level {
  readonly index: number
  readonly hashes: TreeHash[]
}

/** Whether a wider tile has taken its place. Those of a signed checkpoint stay, as tlog-tiles asks. */
function isPast({ level, index, width }: Tile, levels: readonly Level[]): boolean {
  const now = levels[level]
  return now !== undefined && (now.index !== index || now.hashes.length !== width)
}

function hashesOf(bytes: Uint8Array): TreeHash[] {
  return Array.from({ length: bytes.length / 32 }, (_, at) => bytes.subarray(at * 32, (at + 1) * 32))
}
