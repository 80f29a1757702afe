import { describe, expect, it } from 'vitest'
import { loops } from './loops.js'

/** The plain meaning, the slow way: a node lies on a loop if it can be reached from itself. */
function looped(next: readonly (readonly number[])[]): readonly number[] {
  return next.flatMap((_, root) => {
    const seen = new Set<number>()
    const queue = [...(next[root] ?? [])]
    for (let node = queue.pop(); node !== undefined; node = queue.pop()) {
      if (seen.has(node)) continue
      seen.add(node)
      queue.push(...(next[node] ?? []))
    }
    return seen.has(root) ? [root] : []
  })
}

describe('loops', () => {
  it('finds no loop in a line or where two ways meet', () => {
    expect([...loops([[1, 2], [3], [3], []])]).toEqual([])
  })

  it('finds a node that leads to itself', () => {
    expect([...loops([[1], [1, 2], []])]).toEqual([1])
  })

  it('agrees with the plain meaning on every graph of three nodes', () => {
    const targets = [0, 1, 2]
    const sets = Array.from({ length: 8 }, (_, bits) => targets.filter((node) => (bits >> node) & 1))
    for (const first of sets) {
      for (const second of sets) {
        for (const third of sets) {
          const graph = [first, second, third]
          expect([...loops(graph)].sort()).toEqual(looped(graph))
        }
      }
    }
  })

  it('takes a line of twenty thousand nodes without running out of stack', () => {
    const line = Array.from({ length: 20_000 }, (_, index) => (index === 19_999 ? [0] : [index + 1]))
    expect(loops(line).size).toBe(20_000)
  })
})
