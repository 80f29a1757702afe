import { existsSync, readFileSync } from 'node:fs'
import { readChain } from '../chain.js'
import { sha256Hex } from '../digest.js'
import { writeDurably } from '../durable-file.js'
import { appendLeaves } from '../log/append-leaves.js'
import { parseCheckpoint } from '../log/checkpoint.js'
import { logFolder } from '../log/log-folder.js'
import { LogDamaged, openLogReader, readTile } from '../log/log-reader.js'
import { lastCheckpoint } from '../log/read-log.js'
import { tileWidth } from '../log/tiles.js'
import { layout, type Site } from '../site.js'
import { judgeLeaf, type LeafJudged, readLeaf } from './judge-leaf.js'
import type { Kept, LeafAdded, Store } from './store.js'
import { StoreFailure } from './store-failure.js'

type LogOfStore = Pick<Store, 'leafCount' | 'leaves' | 'addLeaf' | 'leafHashes' | 'tile' | 'checkpoint'>

/** The site log of a folder, as part of its store. */
export function folderLog(site: Site, onDisk: <Value>(body: () => Value) => Value): LogOfStore {
  const read = <Value>(body: () => Value): Value => onDisk(() => whereWhole(site, body))
  return {
    leafCount: async () => read(() => openLogReader(site).size),
    leaves: async (from = 0, most = Number.MAX_SAFE_INTEGER) =>
      read(() => openLogReader(site).lines(from, Math.min(from + most, Number.MAX_SAFE_INTEGER))),
    addLeaf: async (line) => read(() => addTo(site, line)),
    tile: async (tile) =>
      read(() => {
        const hashes = Math.floor(openLogReader(site).size / tileWidth ** tile.level)
        const isThere = tile.width >= 1 && tile.width <= tileWidth && tile.index * tileWidth + tile.width <= hashes
        return isThere ? readTile(site, tile) : null
      }),
    leafHashes: async (runs) =>
      read(() => {
        const log = openLogReader(site)
        return new Map(
          runs.flatMap((run) => {
            const index = log.numberOf(run)
            return index === null ? [] : [[run, sha256Hex(log.lines(index, index + 1)[0] ?? '')]]
          })
        )
      }),
    checkpoint: async () => read(() => lastCheckpoint(site))
  }
}

/** Beside the checkpoints that the folder's own key signed, each under its size. */
export function keepCheckpointIn(site: Site, size: number, note: string): Kept {
  const file = logFolder.signed(site, size)
  if (existsSync(file)) return { kind: 'same' }
  writeDurably(file, note)
  const last = lastCheckpoint(site)
  const before = last === null ? null : parseCheckpoint(`${last.split('\n\n')[0]}\n`)
  if (before === null || before.size < size) writeDurably(logFolder.checkpoint(site), note)
  return { kind: 'kept' }
}

function addTo(site: Site, line: string): LeafAdded {
  const read = readLeaf(line)
  if (!('leaf' in read)) return read
  const { leaf } = read
  const judge = (): LeafJudged => {
    const log = openLogReader(site)
    const index = log.numberOf(leaf.run)
    const journal = layout.journal(site, leaf.run)
    const lines = existsSync(journal) ? readChain(readFileSync(journal), journal, leaf.run).lines : []
    const closing = lines[leaf.entries - 1]
    return judgeLeaf(line, leaf, {
      leaf: index === null ? null : { index, line: log.lines(index, index + 1)[0] ?? '' },
      hash: closing === undefined ? null : sha256Hex(closing.text)
    })
  }
  const judged = judge()
  if (judged.kind !== 'add') return judged
  const appended = appendLeaves(site, [leaf])
  if (!appended.ok) throw new StoreFailure(appended.faults[0])
  const [added] = appended.value.added
  if (added !== undefined) return { kind: 'added', index: added.number }
  // Another process added one for this run in between.
  const again = judge()
  if (again.kind === 'add') throw new Error('a leaf that was passed over is not there')
  return again
}

function whereWhole<Value>(site: Site, body: () => Value): Value {
  try {
    return body()
  } catch (error) {
    if (!(error instanceof LogDamaged)) throw error
    throw new StoreFailure({
      id: 'log-tiles',
      file: logFolder.folder(site),
      what: `A part of the site log that is made of its leaves cannot be used: ${error.message}.`,
      danger: 'No proof can be made of it. The leaves themselves are not touched by that.',
      mend: 'Remove `log/tile`; `log checkpoint` makes it anew from the leaves.'
    })
  }
}
