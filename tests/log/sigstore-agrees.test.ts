import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { emptyRoot, leafHash, nodeHash } from '../../packages/records/src/log/tree-hash.js'
import { type NodeReader, proveInclusion, treeRoot } from '../../packages/records/src/log/tree-proofs.js'

// Reference: @sigstore/verify 3.1.1 from the npm registry, which checks the proofs of a public log of signatures. It is
// not ours. Its check of inclusion is not among its exports, so its file is named.
const require = createRequire(import.meta.url)
const { verifyMerkleInclusion } = require(join(dirname(require.resolve('@sigstore/verify')), 'tlog', 'merkle.js')) as {
  verifyMerkleInclusion: (
    entry: {
      readonly canonicalizedBody: Buffer
      readonly inclusionProof: { readonly logIndex: string; readonly hashes: readonly Buffer[] }
    },
    checkpoint: { readonly logSize: string; readonly logHash: Buffer }
  ) => void
}

const leaves = Array.from({ length: 260 }, (_, at) => `{"run":"run-${at}"}`)
const hashes = leaves.map((leaf) => leafHash(leaf))
const node: NodeReader = (level, index) =>
  level === 0 ? (hashes[index] ?? emptyRoot()) : nodeHash(node(level - 1, 2 * index), node(level - 1, 2 * index + 1))

function verify(index: number, size: number, leaf = leaves[index] ?? ''): void {
  verifyMerkleInclusion(
    {
      canonicalizedBody: Buffer.from(leaf),
      inclusionProof: {
        logIndex: String(index),
        hashes: proveInclusion(index, size, node).map((hash) => Buffer.from(hash))
      }
    },
    { logSize: String(size), logHash: Buffer.from(treeRoot(size, node)) }
  )
}

describe('@sigstore/verify and our tree', () => {
  it('agree on every inclusion proof up to 70 leaves and at the border of a tile', () => {
    let proofs = 0
    for (const size of [...Array.from({ length: 70 }, (_, at) => at + 1), 255, 256, 257]) {
      for (let index = 0; index < size; index += size > 70 ? 17 : 1) {
        expect(() => verify(index, size)).not.toThrow()
        expect(() => verify(index, size, 'another leaf')).toThrow(/does not match/)
        proofs += 1
      }
    }
    expect(proofs).toBeGreaterThan(2500)
  })
})
