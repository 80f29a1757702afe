import assert from 'node:assert/strict'
import { sha256Hex } from '../../digest.js'
import { signCheckpoint } from '../../log/checkpoint.js'
import { nodesInTiles, tilePath, tilesOnPath } from '../../log/tiles.js'
import { emptyRoot, leafHash, nodeHash, splitOf } from '../../log/tree-hash.js'
import { proveConsistency, proveInclusion, treeRoot } from '../../log/tree-proofs.js'
import type { Store } from '../store.js'
import { finished, newRoot, note, runOf, sampleLeaf, sampleLines, sampleRoster } from './sample-records.js'
import type { StoreCase } from './store-case.js'

const lines = sampleLines({ events: [finished] })
const leaf = sampleLeaf(lines)

/** What every store promises of the site log. */
export const logCases: readonly StoreCase[] = [
  {
    promise: 'has an empty log at first',
    check: async ({ store }) => {
      assert.equal(await store.leafCount(), 0)
      assert.deepEqual(await store.leaves(), [])
      assert.equal(await store.checkpoint(), null)
      assert.equal(await store.tile({ level: 0, index: 0, width: 1 }), null)
    }
  },
  {
    promise: 'takes no leaf whose journal is not here to that line with that hash',
    check: async ({ store }) => {
      assert.equal((await store.addLeaf(leaf)).kind, 'refused')
      await store.append(runOf('pump'), 1, lines.slice(0, 1))
      assert.equal((await store.addLeaf(leaf)).kind, 'refused')
      await store.append(runOf('pump'), 2, lines.slice(1))
      const other = sampleLeaf(sampleLines({ events: [note('another')] }))
      assert.equal((await store.addLeaf(other)).kind, 'refused')
      for (const bad of ['', '{}', 'null', ` ${leaf}`, leaf.replace('"run":"pump"', '"run":"../x"')]) {
        assert.equal((await store.addLeaf(bad)).kind, 'refused', bad)
      }
      assert.equal(await store.leafCount(), 0)
      assert.deepEqual(await store.addLeaf(leaf), { kind: 'added', index: 0 })
    }
  },
  {
    promise: 'takes a leaf twice as once, and no other leaf for the run',
    check: async ({ store, again }) => {
      await store.append(runOf('pump'), 1, lines)
      await store.addLeaf(leaf)
      assert.deepEqual(await (await again()).addLeaf(leaf), { kind: 'same', index: 0 })
      assert.equal((await store.addLeaf(sampleLeaf(lines, { status: 'stopped' }))).kind, 'conflict')
      assert.deepEqual(await store.leaves(), [leaf])
    }
  },
  {
    promise: 'numbers leaves without gaps, whoever brings them at once',
    check: async ({ store, again }) => {
      const other = await again()
      const runs = Array.from({ length: 12 }, (_, n) => sampleLines({ run: `r${n}`, events: [finished] }))
      const leaves = await Promise.all(
        runs.map(async (one, n) => {
          const to = n % 2 === 0 ? store : other
          await to.append(runOf(`r${n}`), 1, one)
          return await to.addLeaf(sampleLeaf(one))
        })
      )
      const indexes = leaves.map((added) => (added.kind === 'added' ? added.index : -1))
      assert.deepEqual(
        indexes.toSorted((a, b) => a - b),
        runs.map((_, n) => n)
      )
      const stand = await other.leaves()
      assert.deepEqual(
        indexes.map((index) => stand[index]),
        runs.map((one) => sampleLeaf(one))
      )
      assert.deepEqual(await store.leaves(3, 2), stand.slice(3, 5))
      assert.deepEqual(await store.leaves(11), stand.slice(11))
      assert.deepEqual(await store.leaves(12), [])
    }
  },
  {
    promise: 'tells which runs have a leaf, and which',
    check: async ({ store }) => {
      await store.append(runOf('pump'), 1, lines)
      await store.addLeaf(leaf)
      assert.deepEqual([...(await store.leafHashes(['none', 'pump', '../x']))], [['pump', sha256Hex(leaf)]])
    }
  },
  {
    promise: 'keeps a checkpoint that the root key signed over what the log here is, and no other',
    check: async ({ store }) => {
      const root = newRoot()
      const noteOf = (size: number, key = root, of = leaf) =>
        signCheckpoint({ origin: 'lockwright/sandholm/x', size, root: size === 0 ? emptyRoot() : leafHash(of) }, key)
      assert.equal((await store.keepCheckpoint(noteOf(0))).kind, 'refused')
      await store.supersede('people.yaml', sampleRoster(root, 1))
      assert.deepEqual(await store.keepCheckpoint(noteOf(0)), { kind: 'kept' })
      assert.equal((await store.keepCheckpoint(noteOf(1))).kind, 'refused')
      await store.append(runOf('pump'), 1, lines)
      await store.addLeaf(leaf)
      assert.equal((await store.keepCheckpoint(noteOf(1, newRoot()))).kind, 'refused')
      assert.equal((await store.keepCheckpoint(noteOf(1, root, 'another'))).kind, 'refused')
      assert.equal((await store.keepCheckpoint('a note')).kind, 'refused')
      assert.deepEqual(await store.keepCheckpoint(noteOf(1)), { kind: 'kept' })
      assert.deepEqual(await store.keepCheckpoint(noteOf(1)), { kind: 'same' })
      assert.equal(await store.checkpoint(), noteOf(1))
    }
  },
  {
    promise: 'gives the tiles that proofs are made of',
    check: async ({ store }) => {
      const size = 258
      const hashes: Uint8Array[] = []
      for (let n = 0; n < size; n += 1) {
        const one = sampleLines({ run: `r${n}`, events: [finished] })
        await store.append(runOf(`r${n}`), 1, one)
        await store.addLeaf(sampleLeaf(one))
        hashes.push(leafHash(sampleLeaf(one)))
      }
      for (const width of [1, 2, 129, 256, 257, size]) {
        const read = await tilesOf(store, width, [0, width - 1])
        assert.deepEqual(hex(treeRoot(width, read)), hex(naiveRoot(hashes.slice(0, width))), String(width))
        const path = proveInclusion(width - 1, width, read)
        const plain = proveInclusion(width - 1, width, (level, index) =>
          naiveRoot(hashes.slice(index * 2 ** level, (index + 1) * 2 ** level))
        )
        assert.deepEqual(path.map(hex), plain.map(hex), String(width))
      }
      const read = await tilesOf(store, size, [0, 128, 129])
      assert.equal(proveConsistency(129, size, read).length > 0, true)
      assert.equal(await store.tile({ level: 0, index: 1, width: 3 }), null)
      assert.equal(await store.tile({ level: 1, index: 0, width: 2 }), null)
    }
  }
]

const hex = (bytes: Uint8Array): string => Buffer.from(bytes).toString('hex')

/** MTH of RFC 9162, section 2.1.1, as it is written there. */
function naiveRoot(hashes: readonly Uint8Array[]): Uint8Array {
  if (hashes.length === 1) return hashes[0] ?? new Uint8Array()
  const split = splitOf(hashes.length)
  return nodeHash(naiveRoot(hashes.slice(0, split)), naiveRoot(hashes.slice(split)))
}

async function tilesOf(store: Store, size: number, leaves: readonly number[]) {
  const tiles = new Map<string, Uint8Array>()
  for (const tile of tilesOnPath(leaves, size)) {
    const bytes = await store.tile(tile)
    if (bytes === null) throw new Error(`no ${tilePath(tile)}`)
    tiles.set(tilePath(tile), bytes)
  }
  return nodesInTiles(size, (tile) => tiles.get(tilePath(tile)) ?? new Uint8Array())
}
