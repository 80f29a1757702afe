import { emptyRoot, nodeHash, splitOf, type TreeHash } from './tree-hash.js'

/**
 * Reads the hash of a whole subtree: of the 2^`level` leaves from number `index` times 2^`level` on. Asked only for
 * subtrees that the tree holds whole.
 */
export type NodeReader = (level: number, index: number) => TreeHash

/** Root of the first `size` leaves: MTH of RFC 9162, section 2.1.1. Reads no more than log2(size) + 1 nodes. */
export function treeRoot(size: number, node: NodeReader): TreeHash {
  return size === 0 ? emptyRoot() : rangeHash(0, size, node)
}

/** Proof that leaf `index` is in the tree of `size` leaves: PATH of RFC 9162, section 2.1.3.1, from the leaf upwards. */
export function proveInclusion(index: number, size: number, node: NodeReader): readonly TreeHash[] {
  if (!(index >= 0 && index < size)) throw new RangeError(`no leaf ${index} in a tree of ${size}`)
  const path: TreeHash[] = []
  let [low, high] = [0, size]
  while (high - low > 1) {
    const middle = low + splitOf(high - low)
    if (index < middle) {
      path.unshift(rangeHash(middle, high, node))
      high = middle
    } else {
      path.unshift(rangeHash(low, middle, node))
      low = middle
    }
  }
  return path
}

/** Proof that the tree of `first` leaves is the beginning of the one of `second`: PROOF of RFC 9162, section 2.1.4.1. */
export function proveConsistency(first: number, second: number, node: NodeReader): readonly TreeHash[] {
  if (!(first > 0 && first <= second)) throw new RangeError(`a tree of ${first} begins none of ${second}`)
  const path: TreeHash[] = []
  let [low, high] = [0, second]
  while (first < high) {
    const middle = low + splitOf(high - low)
    if (first <= middle) {
      path.unshift(rangeHash(middle, high, node))
      high = middle
    } else {
      path.unshift(rangeHash(low, middle, node))
      low = middle
    }
  }
  // Whoever checks knows the root of the first tree; it is left out where it is itself the node that was reached.
  return low === 0 ? path : [rangeHash(low, high, node), ...path]
}

/** Hash over the leaves from `low` to before `high`, as RFC 9162 cuts them up from there. */
function rangeHash(low: number, high: number, node: NodeReader): TreeHash {
  const width = high - low
  const level = Math.log2(width)
  if (Number.isInteger(level)) return node(level, low / width)
  const middle = low + splitOf(width)
  return nodeHash(rangeHash(low, middle, node), rangeHash(middle, high, node))
}
