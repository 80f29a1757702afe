import { emptyRoot, nodeHash, sameHash, type TreeHash } from './tree-hash.js'

/** Whether a proof shows that the leaf is in the tree: RFC 9162, section 2.1.3.2, step by step. */
export function inclusionHolds(proof: {
  readonly index: number
  readonly size: number
  readonly leaf: TreeHash
  readonly path: readonly TreeHash[]
  readonly root: TreeHash
}): boolean {
  if (!(proof.index >= 0 && proof.index < proof.size)) return false
  let [fn, sn, hash] = [proof.index, proof.size - 1, proof.leaf]
  for (const sibling of proof.path) {
    if (sn === 0) return false
    if (isOdd(fn) || fn === sn) {
      hash = nodeHash(sibling, hash)
      while (!isOdd(fn) && fn !== 0) [fn, sn] = [half(fn), half(sn)]
    } else hash = nodeHash(hash, sibling)
    fn = half(fn)
    sn = half(sn)
  }
  return sn === 0 && sameHash(hash, proof.root)
}

/**
 * Whether a proof shows that the second tree begins with the first: RFC 9162, section 2.1.4.2, step by step. The RFC
 * leaves out the empty tree, which begins every other, and a tree with itself; both ask for an empty proof.
 */
export function consistencyHolds(proof: {
  readonly first: number
  readonly second: number
  readonly firstRoot: TreeHash
  readonly secondRoot: TreeHash
  readonly path: readonly TreeHash[]
}): boolean {
  const { first, second, firstRoot, secondRoot, path } = proof
  if (!(first >= 0 && first <= second)) return false
  if (first === second) return path.length === 0 && sameHash(firstRoot, secondRoot)
  if (first === 0) return path.length === 0 && sameHash(firstRoot, emptyRoot())
  const [begin, ...rest] = isPowerOfTwo(first) ? [firstRoot, ...path] : path
  if (begin === undefined || path.length === 0) return false
  let [fn, sn] = [first - 1, second - 1]
  while (isOdd(fn)) [fn, sn] = [half(fn), half(sn)]
  let [fr, sr] = [begin, begin]
  for (const hash of rest) {
    if (sn === 0) return false
    if (isOdd(fn) || fn === sn) {
      fr = nodeHash(hash, fr)
      sr = nodeHash(hash, sr)
      while (!isOdd(fn) && fn !== 0) [fn, sn] = [half(fn), half(sn)]
    } else sr = nodeHash(sr, hash)
    fn = half(fn)
    sn = half(sn)
  }
  return sn === 0 && sameHash(fr, firstRoot) && sameHash(sr, secondRoot)
}

// Shifts of JavaScript are of 32 bits; these hold up to 2^53.
const half = (value: number): number => Math.floor(value / 2)
const isOdd = (value: number): boolean => value % 2 === 1
const isPowerOfTwo = (value: number): boolean => Number.isInteger(Math.log2(value))
