import { generateKeyPairSync } from 'node:crypto'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { formatCheckpoint, originOf, signCheckpoint } from '../../packages/records/src/log/checkpoint.js'
import { frontierOf } from '../../packages/records/src/log/frontier.js'
import { formatNoteKey, openNote, parseNoteKey, signNote } from '../../packages/records/src/log/signed-note.js'
import { openTileWriter } from '../../packages/records/src/log/tile-writer.js'
import { emptyRoot, leafHash, nodeHash, type TreeHash } from '../../packages/records/src/log/tree-hash.js'
import {
  type NodeReader,
  proveConsistency,
  proveInclusion,
  treeRoot
} from '../../packages/records/src/log/tree-proofs.js'
import { consistencyHolds, inclusionHolds } from '../../packages/records/src/log/verify-tree-proofs.js'
import { publicBytesOf } from '../../packages/records/src/public-key.js'
import { buildGo, goIsInstalled } from './ask-go.js'

// Reference: golang.org/x/mod/sumdb/tlog and sumdb/note as packaged by Debian, the log and the notes of Go's own
// checksum database. Neither is ours.
const installed = goIsInstalled()
if (!installed) {
  process.stderr.write(
    '\n!!! SKIPPED: Go or its x/mod is not installed, so no proof and no note was held against it. On Debian: apt-get install golang-go golang-golang-x-mod-dev\n\n'
  )
}

const base64 = (bytes: Uint8Array): string => Buffer.from(bytes).toString('base64')
const bytes = (text: string): Buffer => Buffer.from(text, 'base64')
const leaves = Array.from({ length: 520 }, (_, at) => `{"run":"run-${at}"}`)
const hashes = leaves.map((leaf) => leafHash(leaf))

const node: NodeReader = (level, index) => {
  if (level === 0) return hashes[index] ?? emptyRoot()
  return nodeHash(node(level - 1, 2 * index), node(level - 1, 2 * index + 1))
}

const small = Array.from({ length: 70 }, (_, at) => at + 1)
const borders = [255, 256, 257, 511, 512, 513]

describe.runIf(installed)('Go and our tree', () => {
  const go = installed ? buildGo() : null
  afterAll(() => go?.remove())

  it('agree on every root, every inclusion and every consistency proof up to 70 leaves and at the borders of tiles', () => {
    const sizes = [...small, ...borders]
    const inclusion = sizes.flatMap((size) =>
      (size <= 70 ? small.slice(0, size).map((one) => one - 1) : [0, 1, 254, size - 2, size - 1]).map((index) => ({
        Index: index,
        Size: size,
        Path: proveInclusion(index, size, node).map(base64)
      }))
    )
    const consistency = sizes.flatMap((second) =>
      (second <= 70 ? small.slice(0, second) : [1, 70, ...borders.filter((one) => one <= second)]).map((first) => ({
        First: first,
        Second: second,
        Path: proveConsistency(first, second, node).map(base64)
      }))
    )
    const told = go?.ask({ Leaves: leaves, Inclusion: inclusion, Consistency: consistency })
    if (told === undefined) return expect.fail('no answer')
    expect(told.Refused).toBeNull()
    expect(told.Roots.slice(1)).toEqual(leaves.map((_, at) => base64(treeRoot(at + 1, node))))
    // What Go proves is the same to the byte, and holds here.
    expect(told.Inclusion?.map(({ Path }) => Path ?? [])).toEqual(inclusion.map(({ Path }) => Path))
    expect(told.Consistency?.map(({ Path }) => Path ?? [])).toEqual(consistency.map(({ Path }) => Path))
    const root = (size: number): TreeHash => bytes(told.Roots[size] ?? '')
    const proven = told.Inclusion?.filter(({ Index, Size, Path }) =>
      inclusionHolds({
        index: Index,
        size: Size,
        leaf: hashes[Index] ?? emptyRoot(),
        path: (Path ?? []).map(bytes),
        root: root(Size)
      })
    )
    expect(proven?.length).toBe(inclusion.length)
    const consistent = told.Consistency?.filter(({ First, Second, Path }) =>
      consistencyHolds({
        first: First,
        second: Second,
        firstRoot: root(First),
        secondRoot: root(Second),
        path: (Path ?? []).map(bytes)
      })
    )
    expect(consistent?.length).toBe(consistency.length)
    expect(inclusion.length + consistency.length).toBeGreaterThan(5000)
  })

  it('refuses a proof of another leaf, so its agreement means something', () => {
    const Path = proveInclusion(3, 9, node).map(base64)
    expect(go?.ask({ Leaves: leaves, Inclusion: [{ Index: 4, Size: 9, Path }] }).Refused).toHaveLength(1)
  })

  it('reads every leaf out of the tiles that we write, leaf by leaf and in one go', () => {
    const folder = mkdtempSync(join(tmpdir(), 'lockwright-tiles-'))
    try {
      const tiles = [1, 7, 70, ...borders].map((size) => {
        const site = { folder: join(folder, String(size)) }
        // The last leaves one by one, as runs are closed; those before them as an old site is taken in.
        const before = Math.max(0, size - 3)
        for (const [from, to] of [
          [0, before],
          ...Array.from({ length: size - before }, (_, at) => [before + at, before + at + 1])
        ]) {
          const writer = openTileWriter(site, from ?? 0)
          for (const hash of hashes.slice(from, to)) writer.push(hash)
          writer.finish()
        }
        return { Folder: join(site.folder, 'log'), Size: size }
      })
      expect(go?.ask({ Leaves: leaves, Tiles: tiles }).Refused).toBeNull()
    } finally {
      rmSync(folder, { recursive: true, force: true })
    }
  })

  it('opens the checkpoints that we sign, and we the notes that it signs', () => {
    const { privateKey } = generateKeyPairSync('ed25519')
    const key = publicBytesOf(privateKey)
    const grown = frontierOf(0, node)
    const notes = [0, 1, 2, 255, 256, 520].map((size) => {
      while (grown.size < size) grown.push(hashes[grown.size] ?? emptyRoot())
      const origin = originOf('Sandholm waterworks', key)
      const Note = signCheckpoint({ origin, size, root: grown.root() }, privateKey)
      return { Note, Key: formatNoteKey({ name: origin, key }) }
    })
    const spoiled = notes.map(({ Note, Key }) => ({ Note: Note.replace(/\n(\d+)\n/, '\n1$1\n'), Key }))
    const texts = [
      'one line\n',
      'two\nlines with Jürgen\n',
      'an empty\n\nline\n',
      formatCheckpoint({ origin: 'example.org/log', size: 0, root: emptyRoot() })
    ]
    const told = go?.ask({ Notes: [...notes, ...spoiled], Sign: texts })
    expect(told?.Refused).toHaveLength(spoiled.length)
    expect(told?.Refused?.[0]).toContain(`note ${notes.length}:`)
    expect(told?.Signed?.length).toBe(texts.length)
    told?.Signed?.forEach(({ Note, Key }, at) => {
      const parsed = parseNoteKey(Key)
      if (parsed === null) return expect.fail(Key)
      expect(formatNoteKey(parsed)).toBe(Key)
      expect(openNote(Note, [parsed])).toMatchObject({ ok: true, text: texts[at] })
      expect(openNote(Note.replace(/[a-z]/, 'X'), [parsed]).ok).toBe(false)
    })
    // Signed by both: each passes over the other's signature.
    const [theirs] = told?.Signed ?? []
    const ours = signNote(texts[0] ?? '', 'example.org/ours', privateKey)
    const both = `${theirs?.Note ?? ''}${ours.split('\n\n')[1] ?? ''}`
    expect(openNote(both, [{ name: 'example.org/ours', key }])).toMatchObject({ ok: true })
    expect(go?.ask({ Notes: [{ Note: both, Key: theirs?.Key ?? '' }] }).Refused).toBeNull()
  })
})
