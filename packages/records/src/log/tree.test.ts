import { describe, expect, it } from 'vitest'
import { frontierOf } from './frontier.js'
import { nodesInTiles, openTiles, tilePath, tilesOnPath } from './tiles.js'
import { emptyRoot, leafHash, nodeHash, splitOf, type TreeHash } from './tree-hash.js'
import { type NodeReader, proveConsistency, proveInclusion, treeRoot } from './tree-proofs.js'
import { consistencyHolds, inclusionHolds } from './verify-tree-proofs.js'

const hex = (bytes: TreeHash): string => Buffer.from(bytes).toString('hex')
const bytes = (text: string): Buffer => Buffer.from(text, 'hex')

/** MTH of RFC 9162, section 2.1.1, word for word: the slow way, to hold the fast one against. */
function treeHash(leaves: readonly TreeHash[]): TreeHash {
  const [only] = leaves
  if (only === undefined) return emptyRoot()
  if (leaves.length === 1) return only
  const split = splitOf(leaves.length)
  return nodeHash(treeHash(leaves.slice(0, split)), treeHash(leaves.slice(split)))
}

const reader =
  (leaves: readonly TreeHash[]): NodeReader =>
  (level, index) =>
    treeHash(leaves.slice(index * 2 ** level, (index + 1) * 2 ** level))

// RFC 9162 prints no vectors. These are the eight leaves, their roots and proofs of the reference implementations of
// RFC 6962, whose trees section 2.1 of RFC 9162 keeps: github.com/transparency-dev/merkle v0.0.2, testonly/constants.go,
// testonly/reference_test.go and rfc6962/rfc6962_test.go.
const leaves = ['', '00', '10', '2021', '3031', '40414243', '5051525354555657', '606162636465666768696a6b6c6d6e6f']
const roots = [
  'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855',
  '6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d',
  'fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125',
  'aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77',
  'd37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7',
  '4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4',
  '76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef',
  'ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c',
  '5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328'
]
const inclusion = [
  { index: 0, size: 1, path: [] },
  { index: 0, size: 2, path: ['96a296d224f285c67bee93c30f8a309157f0daa35dc5b87e410b78630a09cfc7'] },
  { index: 2, size: 3, path: ['fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125'] },
  {
    index: 1,
    size: 5,
    path: [
      '6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d',
      '5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e',
      'bc1a0643b12e4d2d7c77918f44e0f4f79a838b6cf9ec5b5c283e1f4d88599e6b'
    ]
  },
  {
    index: 5,
    size: 8,
    path: [
      'bc1a0643b12e4d2d7c77918f44e0f4f79a838b6cf9ec5b5c283e1f4d88599e6b',
      'ca854ea128ed050b41b35ffc1b87b8eb2bde461e9e3b5596ece6b9d5975a0ae0',
      'd37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7'
    ]
  }
]
const consistency = [
  { first: 1, second: 1, path: [] },
  {
    first: 1,
    second: 8,
    path: [
      '96a296d224f285c67bee93c30f8a309157f0daa35dc5b87e410b78630a09cfc7',
      '5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e',
      '6b47aaf29ee3c2af9af889bc1fb9254dabd31177f16232dd6aab035ca39bf6e4'
    ]
  },
  {
    first: 6,
    second: 8,
    path: [
      '0ebc5d3437fbe2db158b9f126a1d118e308181031d0a949f8dededebc558ef6a',
      'ca854ea128ed050b41b35ffc1b87b8eb2bde461e9e3b5596ece6b9d5975a0ae0',
      'd37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7'
    ]
  },
  {
    first: 2,
    second: 5,
    path: [
      '5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e',
      'bc1a0643b12e4d2d7c77918f44e0f4f79a838b6cf9ec5b5c283e1f4d88599e6b'
    ]
  }
]
const hashes = leaves.map((leaf) => leafHash(bytes(leaf)))
const rootAt = (size: number): TreeHash => bytes(roots[size] ?? '')

describe('the tree of RFC 9162, section 2.1', () => {
  it('hashes leaves and nodes as the reference implementations do', () => {
    expect(hex(emptyRoot())).toBe(roots[0])
    expect(hex(leafHash('L123456'))).toBe('395aa064aa4c29f7010acfe3f25db9485bbd4b91897b6ad7ad547639252b4d56')
    expect(hex(nodeHash(Buffer.from('N123'), Buffer.from('N456')))).toBe(
      'aa217fe888e47007fa15edab33c2b492a722cb106c64667fc2b044444de66bbb'
    )
  })

  it.each([0, 1, 2, 3, 4, 5, 6, 7, 8])('has the published root at size %i, in whole and leaf by leaf', (size) => {
    expect(hex(treeRoot(size, reader(hashes)))).toBe(roots[size])
    const grown = frontierOf(0, reader(hashes))
    for (const leaf of hashes.slice(0, size)) grown.push(leaf)
    expect([grown.size, hex(grown.root())]).toEqual([size, roots[size]])
  })

  it('has the published roots of larger trees', () => {
    // compact/range_test.go of the same, TestGetRootHashGolden: leaf i is i in two bytes, the low one first.
    const many = Array.from({ length: 255 }, (_, at) => leafHash(Uint8Array.of(at & 0xff, at >> 8)))
    const rootOf = (size: number): string => Buffer.from(treeRoot(size, reader(many.slice(0, size)))).toString('base64')
    expect(rootOf(10)).toBe('VjWMPSYNtCuCNlF/RLnQy6HcwSk6CIipfxm+hettA+4=')
    expect(rootOf(15)).toBe('j4SulYmocFuxdeyp12xXCIgK6PekBcxzAIj4zbQzNEI=')
    expect(rootOf(100)).toBe('dUh9hYH88p0CMoHkdr1wC2szbhcLAXOejWpINIooKUY=')
    expect(rootOf(255)).toBe('SmdsuKUqiod3RX2jyF2M6JnbdE4QuTwwipfAowI4/i0=')
  })

  it.each(inclusion)('proves leaf $index of $size as published, and believes the proof', ({ index, size, path }) => {
    const proof = proveInclusion(index, size, reader(hashes))
    expect(proof.map(hex)).toEqual(path)
    const leaf = hashes[index] ?? emptyRoot()
    expect(inclusionHolds({ index, size, leaf, path: proof, root: rootAt(size) })).toBe(true)
  })

  it.each(consistency)('proves that $first begins $second as published, and believes it', ({ first, second, path }) => {
    const proof = proveConsistency(first, second, reader(hashes))
    expect(proof.map(hex)).toEqual(path)
    const [firstRoot, secondRoot] = [rootAt(first), rootAt(second)]
    expect(consistencyHolds({ first, second, firstRoot, secondRoot, path: proof })).toBe(true)
  })
})

describe('a proof that was tampered with', () => {
  const flip = (hash: TreeHash): TreeHash => Uint8Array.from(hash, (byte, at) => (at === 0 ? byte ^ 8 : byte))
  const mangled = (path: readonly TreeHash[]): readonly (readonly TreeHash[])[] => [
    ...path.map((_, at) => path.map((hash, other) => (other === at ? flip(hash) : hash))),
    ...path.map((_, at) => path.toSpliced(at, 1)),
    ...path.slice(1).map((_, at) => path.with(at, path[at + 1] ?? emptyRoot()).with(at + 1, path[at] ?? emptyRoot())),
    [...path, emptyRoot()],
    [emptyRoot(), ...path]
  ]

  it('is refused: of inclusion, in every tree up to 24 leaves', () => {
    const many = Array.from({ length: 24 }, (_, at) => leafHash(String(at)))
    let refused = 0
    for (let size = 1; size <= many.length; size += 1) {
      const root = treeRoot(size, reader(many))
      for (let index = 0; index < size; index += 1) {
        const leaf = many[index] ?? emptyRoot()
        const path = proveInclusion(index, size, reader(many))
        const proof = { index, size, leaf, path, root }
        expect(inclusionHolds(proof)).toBe(true)
        const wrong = [
          ...mangled(path).map((one) => ({ ...proof, path: one })),
          { ...proof, index: index + 1 },
          { ...proof, index: index - 1 },
          { ...proof, index: size },
          { ...proof, leaf: flip(leaf) },
          { ...proof, root: flip(root) }
        ]
        expect(wrong.filter(inclusionHolds)).toEqual([])
        refused += wrong.length
      }
    }
    expect(refused).toBeGreaterThan(3000)
  })

  it('is refused: of consistency, in every pair up to 24 leaves', () => {
    const many = Array.from({ length: 24 }, (_, at) => leafHash(String(at)))
    for (let second = 1; second <= many.length; second += 1) {
      const secondRoot = treeRoot(second, reader(many))
      expect(consistencyHolds({ first: 0, second, firstRoot: emptyRoot(), secondRoot, path: [] })).toBe(true)
      expect(consistencyHolds({ first: 0, second, firstRoot: secondRoot, secondRoot, path: [] })).toBe(false)
      for (let first = 1; first <= second; first += 1) {
        const firstRoot = treeRoot(first, reader(many))
        const path = proveConsistency(first, second, reader(many))
        const proof = { first, second, firstRoot, secondRoot, path }
        expect(consistencyHolds(proof)).toBe(true)
        const wrong = [
          ...mangled(path).map((one) => ({ ...proof, path: one })),
          { ...proof, firstRoot: flip(firstRoot) },
          { ...proof, secondRoot: flip(secondRoot) },
          ...(first === second ? [] : [{ ...proof, first: second, second: first }])
        ]
        expect(wrong.filter(consistencyHolds)).toEqual([])
      }
    }
  })
})

describe('tiles', () => {
  it('are named as C2SP tlog-tiles says', () => {
    // The example of tlog-tiles, "Merkle Tree", and that of its "Partial Tiles".
    expect(tilePath({ level: 0, index: 1_234_067, width: 256 })).toBe('tile/0/x001/x234/067')
    expect(tilePath({ level: 63, index: 0, width: 1 })).toBe('tile/63/000.p/1')
    expect(tilePath({ level: 1, index: 1000, width: 256 })).toBe('tile/1/x001/000')
    expect(openTiles(70_000)).toEqual([
      { level: 0, index: 273, width: 112 },
      { level: 1, index: 1, width: 17 },
      { level: 2, index: 0, width: 1 }
    ])
    expect(openTiles(256)).toEqual([{ level: 1, index: 0, width: 1 }])
  })

  it('give every proof of trees at their borders, with no more tiles than are named beforehand', () => {
    const many = Array.from({ length: 70_000 }, (_, at) => leafHash(String(at)))
    const levels: TreeHash[][] = [many]
    for (let level = 0; levels[level]!.length > 1; level += 1) {
      const below = levels[level]!
      levels.push(
        Array.from({ length: Math.floor(below.length / 2) }, (_, at) => nodeHash(below[2 * at]!, below[2 * at + 1]!))
      )
    }
    const plain: NodeReader = (level, index) => levels[level]![index]!
    for (const size of [1, 2, 255, 256, 257, 511, 512, 513, 65_535, 65_536, 65_537, 70_000]) {
      for (const index of new Set([0, 1, Math.floor(size / 2), size - 1])) {
        const allowed = new Set(tilesOnPath([index], size).map(tilePath))
        const node = nodesInTiles(size, (tile) => {
          expect(allowed).toContain(tilePath(tile))
          const from = tile.index * 256
          return Buffer.concat(levels[tile.level * 8]!.slice(from, from + tile.width))
        })
        expect(treeRoot(size, node)).toEqual(treeRoot(size, plain))
        if (index >= size) continue
        expect(proveInclusion(index, size, node)).toEqual(proveInclusion(index, size, plain))
        if (index > 0) {
          // What a consistency proof asks for lies on the path of the last leaf of the smaller tree.
          const near = new Set(tilesOnPath([index - 1], size).map(tilePath))
          const nodes = nodesInTiles(size, (tile) => {
            expect(near).toContain(tilePath(tile))
            const from = tile.index * 256
            return Buffer.concat(levels[tile.level * 8]!.slice(from, from + tile.width))
          })
          expect(proveConsistency(index, size, nodes)).toEqual(proveConsistency(index, size, plain))
        }
        expect(allowed.size).toBeLessThanOrEqual(6)
      }
    }
  })
})
