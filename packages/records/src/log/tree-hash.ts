import { createHash } from 'node:crypto'

/** SHA-256, 32 bytes. */
export type TreeHash = Uint8Array

const leafPrefix = Uint8Array.of(0x00)
const nodePrefix = Uint8Array.of(0x01)

/** Hash of one leaf (RFC 9162, section 2.1.1): SHA-256 of 0x00 and its bytes. */
export function leafHash(bytes: Uint8Array | string): TreeHash {
  return createHash('sha256').update(leafPrefix).update(bytes).digest()
}

/** Hash of an inner node (RFC 9162, section 2.1.1): SHA-256 of 0x01 and both its children. */
export function nodeHash(left: TreeHash, right: TreeHash): TreeHash {
  return createHash('sha256').update(nodePrefix).update(left).update(right).digest()
}

/** Root of the tree without leaves: SHA-256 of nothing. */
export function emptyRoot(): TreeHash {
  return createHash('sha256').digest()
}

/** The largest power of two that is less than `size`; `size` is 2 or more. */
export function splitOf(size: number): number {
  let split = 1
  while (split * 2 < size) split *= 2
  return split
}

export function sameHash(one: TreeHash, other: TreeHash): boolean {
  return Buffer.compare(one, other) === 0
}
