import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type FlowEdge, leastFlow } from './least-flow.js'
import { walksOfFlow } from './walks-of-flow.js'

const seed = 20_260_419

interface Graph {
  readonly nodes: number
  readonly edges: readonly FlowEdge[]
}

/** Graphs in which node 0 reaches all; in a `forward` one every edge goes to a later node. */
function graphs(mostNodes: number, mostEdges: number, forward: boolean): fc.Arbitrary<Graph> {
  return fc.integer({ min: 2, max: mostNodes }).chain((nodes) => {
    const tree = fc.tuple(...Array.from({ length: nodes - 1 }, (_, node) => fc.nat(node)))
    const more = fc.array(fc.tuple(fc.nat(nodes - 1), fc.nat(nodes - 1)), { maxLength: mostEdges - nodes + 1 })
    return fc.tuple(tree, more).map(([parents, pairs]) => ({
      nodes,
      edges: [
        ...parents.map((from, index) => ({ from, to: index + 1 })),
        ...pairs.flatMap(([one, other]) => {
          if (!forward) return [{ from: one, to: other }]
          return one === other ? [] : [{ from: Math.min(one, other), to: Math.max(one, other) }]
        })
      ]
    }))
  })
}

function endsOf({ nodes, edges }: Graph): ReadonlySet<number> {
  const leaves = Array.from({ length: nodes }, (_, node) => node).filter(
    (node) => !edges.some(({ from }) => from === node)
  )
  return new Set(leaves)
}

/** Every way from node 0 to an end, as lists of edges. */
function allWays({ edges }: Graph, ends: ReadonlySet<number>): number[][] {
  const ways: number[][] = []
  const walk = (node: number, way: readonly number[]): void => {
    if (ends.has(node)) ways.push([...way])
    edges.forEach(({ from, to }, edge) => {
      if (from === node) walk(to, [...way, edge])
    })
  }
  walk(0, [])
  return ways
}

/** The fewest of the ways that take every edge, by trying every choice of one, two, three ... of them. */
function fewest(ways: readonly number[][], edges: number): number {
  const all = (1 << edges) - 1
  const masks = ways.map((way) => way.reduce((mask, edge) => mask | (1 << edge), 0))
  const tries = (left: number, from: number, taken: number): boolean => {
    if (taken === all) return true
    if (left === 0) return false
    for (let next = from; next < masks.length; next += 1) {
      if (tries(left - 1, next + 1, taken | (masks[next] ?? 0))) return true
    }
    return false
  }
  let count = 0
  while (!tries(count, 0, 0)) count += 1
  return count
}

function reaches({ edges }: Graph, start: number): ReadonlySet<number> {
  const met = new Set([start])
  for (const node of met) for (const { from, to } of edges) if (from === node) met.add(to)
  return met
}

function expectCovering(graph: Graph, walks: readonly (readonly number[])[]): void {
  const taken = new Set(walks.flat())
  expect(taken.size).toBe(graph.edges.length)
  for (const walk of walks) {
    let node = 0
    for (const edge of walk) {
      expect(graph.edges[edge]?.from).toBe(node)
      node = graph.edges[edge]?.to ?? -1
    }
  }
}

describe('the fewest walks that take every edge', () => {
  it(`are as few as brute force finds on small graphs without cycles (seed ${seed})`, () => {
    const met = new Set<number>()
    fc.assert(
      fc.property(graphs(6, 11, true), (graph) => {
        const ends = endsOf(graph)
        const ways = allWays(graph, ends)
        fc.pre(ways.length <= 24)
        const least = leastFlow(graph.nodes, graph.edges, ends)
        expect(least.walks).toBe(fewest(ways, graph.edges.length))
        expectCovering(graph, walksOfFlow(graph.nodes, graph.edges, least.flow, least.walks))
        met.add(least.walks)
      }),
      { seed, numRuns: 600 }
    )
    expect([...met].sort((one, other) => one - other).slice(0, 5)).toEqual([1, 2, 3, 4, 5])
  })

  it(`are proven fewest by edges that lie apart, cycles or none (seed ${seed})`, () => {
    let cyclic = 0
    fc.assert(
      fc.property(graphs(12, 30, false), (graph) => {
        const ends = endsOf(graph)
        const canEnd = (node: number): boolean => [...reaches(graph, node)].some((met) => ends.has(met))
        fc.pre(Array.from({ length: graph.nodes }, (_, node) => node).every(canEnd))
        const least = leastFlow(graph.nodes, graph.edges, ends)
        const walks = walksOfFlow(graph.nodes, graph.edges, least.flow, least.walks)
        expectCovering(graph, walks)
        for (const walk of walks) expect(ends.has(graph.edges[walk.at(-1) ?? -1]?.to ?? -1)).toBe(true)
        // Whoever took one of them can never come to another: each needs a walk of its own.
        expect(least.apart.length).toBe(walks.length)
        for (const one of least.apart) {
          const onward = reaches(graph, graph.edges[one]?.to ?? -1)
          for (const other of least.apart) expect(onward.has(graph.edges[other]?.from ?? -1)).toBe(false)
        }
        if (graph.edges.some(({ from, to }) => reaches(graph, to).has(from))) cyclic += 1
      }),
      { seed, numRuns: 400 }
    )
    expect(cyclic).toBeGreaterThan(100)
  })

  it('take a loop along on a walk that passes it', () => {
    const edges = [
      { from: 0, to: 1 },
      { from: 1, to: 2 },
      { from: 2, to: 1 },
      { from: 1, to: 1 },
      { from: 2, to: 3 }
    ]
    const least = leastFlow(4, edges, new Set([3]))
    expect(least.walks).toBe(1)
    expect(walksOfFlow(4, edges, least.flow, 1)[0]?.toSorted()).toEqual([0, 1, 1, 2, 3, 4])
  })

  it('break a walk off where no end can be reached', () => {
    const edges = [
      { from: 0, to: 1 },
      { from: 0, to: 2 },
      { from: 2, to: 2 }
    ]
    expect(leastFlow(3, edges, new Set([1])).walks).toBe(2)
  })
})
