import { readChain } from '../chain.js'
import { sha256Hex } from '../digest.js'
import { nothingBegun } from '../list-runs.js'
import type { RecordsFault } from '../result.js'
import { documentConflict, documentFault } from './document-path.js'
import { judgeAppend } from './judge-append.js'
import { judgeCheckpoint } from './judge-checkpoint.js'
import { judgeLeaf, readLeaf } from './judge-leaf.js'
import { judgeSigned } from './judge-signed.js'
import { tileOfLeaves } from './log-tile.js'
import { enteredSheets, sheetsOut } from './sheets-out.js'
import type { RunListing, SignedName, Store } from './store.js'
import { inListOrder, isAsked, journalPath, type ReadRun, storedRun } from './stored-run.js'

/** A store that is gone with the process: for tests, and for an auditor who was handed journals some other way. */
export function memoryStore(name = 'memory'): Store {
  const journals = new Map<string, string[]>()
  const kept = new Map<string, Uint8Array>()
  const signed = new Map<SignedName, Uint8Array>()
  const checkpoints = new Map<number, string>()
  const leaves: { readonly run: string; readonly line: string }[] = []
  const bytesOf = (run: string): Uint8Array =>
    Buffer.from((journals.get(run) ?? []).map((line) => `${line}\n`).join(''))
  const names = (): readonly string[] => [...journals.keys()].toSorted()
  const store: Store = {
    name,
    runs: async (which = {}) => listingOf(names(), bytesOf, (run) => isAsked(run, which)),
    runIds: async () => names(),
    journal: async (run) => (journals.has(run) ? bytesOf(run) : null),
    heads: async (runs) =>
      new Map(
        runs.flatMap((run) => {
          const lines = journals.get(run)
          return lines === undefined ? [] : [[run, { entries: lines.length, hash: sha256Hex(lines.at(-1) ?? '') }]]
        })
      ),
    append: async (run, from, lines) => {
      const standing = journals.get(run) ?? []
      const judged = judgeAppend(run, from, lines, {
        entries: standing.length,
        hashOf: (seq) => sha256Hex(standing[seq - 1] ?? '')
      })
      if (judged.kind !== 'add') return judged
      if (judged.lines.length > 0) journals.set(run, [...standing, ...judged.lines])
      return { kind: 'appended', added: judged.lines.length, entries: standing.length + judged.lines.length }
    },
    documents: async (folder) =>
      [...kept]
        .filter(([path]) => path.startsWith(`${folder}/`))
        .map(([path, bytes]) => ({ path, sha256: sha256Hex(bytes) }))
        .toSorted((a, b) => (a.path < b.path ? -1 : 1)),
    document: async (path) => copyOf(kept.get(path)),
    keep: async (path, bytes) => {
      const fault = documentFault(path, bytes)
      if (fault !== null) return { kind: 'refused', fault }
      const standing = kept.get(path)
      if (standing === undefined) {
        kept.set(path, Uint8Array.from(bytes))
        return { kind: 'kept' }
      }
      const [here, offered] = [sha256Hex(standing), sha256Hex(bytes)]
      if (here === offered) return { kind: 'same' }
      return { kind: 'conflict', here, offered, fault: documentConflict(path, here, offered) }
    },
    sheetsOut: async () => {
      const { runs } = listingOf(names(), bytesOf, () => true)
      const paths = [...kept.keys()].filter((path) => path.startsWith('sheets/')).toSorted()
      return sheetsOut(paths, enteredSheets(runs))
    },
    signed: async (name) => copyOf(signed.get(name)),
    supersede: async (name, bytes) => {
      const roster = signed.get('people.yaml') ?? null
      const judged = judgeSigned(name, bytes, { roster, current: signed.get(name) ?? null })
      if (judged.kind !== 'take') return judged
      signed.set(name, Uint8Array.from(bytes))
      return { kind: 'kept', serial: judged.serial }
    },
    leafCount: async () => leaves.length,
    leaves: async (from = 0, most = leaves.length) => leaves.slice(from, from + most).map(({ line }) => line),
    addLeaf: async (line) => {
      const read = readLeaf(line)
      if (!('leaf' in read)) return read
      const { leaf } = read
      const index = leaves.findIndex(({ run }) => run === leaf.run)
      const closing = journals.get(leaf.run)?.[leaf.entries - 1]
      const judged = judgeLeaf(line, leaf, {
        leaf: index === -1 ? null : { index, line: leaves[index]?.line ?? '' },
        hash: closing === undefined ? null : sha256Hex(closing)
      })
      if (judged.kind !== 'add') return judged
      leaves.push({ run: leaf.run, line })
      return { kind: 'added', index: leaves.length - 1 }
    },
    tile: async (tile) =>
      tileOfLeaves(
        leaves.map(({ line }) => line),
        tile
      ),
    leafHashes: async (runs) =>
      new Map(leaves.filter(({ run }) => runs.includes(run)).map(({ run, line }) => [run, sha256Hex(line)])),
    checkpoint: async () => checkpoints.get(Math.max(...checkpoints.keys())) ?? null,
    keepCheckpoint: async (note) => {
      const judged = await judgeCheckpoint(store, note)
      if (judged.kind !== 'keep') return judged
      const same = checkpoints.has(judged.size)
      if (!same) checkpoints.set(judged.size, note)
      return { kind: same ? 'same' : 'kept' }
    },
    close: async () => {}
  }
  return store
}

/** The list of runs of a store that reads its journals for it. */
export function listingOf(
  names: readonly string[],
  bytesOf: (run: string) => Uint8Array,
  asked: (run: ReadRun) => boolean
): RunListing {
  const runs: ReadRun[] = []
  const faults: RecordsFault[] = []
  for (const name of names) {
    const reading = readChain(bytesOf(name), journalPath(name), name)
    const read = storedRun(reading, name)
    if (read === null) faults.push(reading.faults[0] ?? nothingBegun(journalPath(name)))
    else if (asked(read)) runs.push(read)
  }
  return { runs: inListOrder(runs), faults }
}

function copyOf(bytes: Uint8Array | undefined): Uint8Array | null {
  return bytes === undefined ? null : Uint8Array.from(bytes)
}
