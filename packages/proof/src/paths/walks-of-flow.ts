import type { FlowEdge } from './least-flow.js'

/**
 * A flow from node 0 as walks, each a list of edges, that together take every edge as often as the flow says.
 * Cycles go to the walk that passes them and has the fewest of them so far.
 */
export function walksOfFlow(
  nodes: number,
  edges: readonly FlowEdge[],
  flow: readonly number[],
  walks: number
): readonly (readonly number[])[] {
  const left = [...flow]
  const out: number[][] = Array.from({ length: nodes }, () => [])
  edges.forEach(({ from }, edge) => {
    out[from]?.push(edge)
  })
  const cycles: number[][] = []
  const paths = Array.from({ length: walks }, () => follow(0, edges, out, left, cycles))
  for (let node = 0; node < nodes; node += 1) {
    // What is left goes round and round: a way on from a node always comes back to it.
    while (out[node]?.some((edge) => (left[edge] ?? 0) > 0)) {
      const rest = follow(node, edges, out, left, cycles)
      if (rest.length > 0) throw new Error('the flow is not kept at every node')
    }
  }
  return withCycles(paths, cycles, edges)
}

/** Follows the flow from a node until none is left there; cycles closed on the way are set aside. */
function follow(
  start: number,
  edges: readonly FlowEdge[],
  out: readonly (readonly number[])[],
  left: number[],
  cycles: number[][]
): number[] {
  const way: number[] = []
  const at = new Map<number, number>([[start, 0]])
  let node = start
  for (;;) {
    const edge = out[node]?.find((candidate) => (left[candidate] ?? 0) > 0)
    if (edge === undefined) return way
    left[edge] = (left[edge] ?? 0) - 1
    way.push(edge)
    node = edges[edge]?.to as number
    const before = at.get(node)
    if (before === undefined) {
      at.set(node, way.length)
      continue
    }
    const cycle = way.splice(before)
    for (const passed of cycle) at.delete(edges[passed]?.to as number)
    at.set(node, before)
    cycles.push(cycle)
  }
}

function withCycles(
  paths: readonly (readonly number[])[],
  cycles: readonly (readonly number[])[],
  edges: readonly FlowEdge[]
): readonly (readonly number[])[] {
  const walks = paths.map((path) => ({ edges: [...path], cycles: 0 }))
  const passes = (walk: readonly number[]): ReadonlySet<number> =>
    new Set([0, ...walk.map((edge) => edges[edge]?.to as number)])
  let waiting = cycles
  while (waiting.length > 0) {
    const later: (readonly number[])[] = []
    for (const cycle of waiting) {
      const heads = cycle.map((edge) => edges[edge]?.from as number)
      const hosts = walks.filter((walk) => heads.some((head) => passes(walk.edges).has(head)))
      const host = hosts.reduce<(typeof walks)[number] | undefined>(
        (best, walk) => (best === undefined || walk.cycles < best.cycles ? walk : best),
        undefined
      )
      if (host === undefined) {
        later.push(cycle)
        continue
      }
      const met = passes(host.edges)
      const turn = heads.findIndex((head) => met.has(head))
      const place = heads[turn] === 0 ? 0 : host.edges.findIndex((edge) => edges[edge]?.to === heads[turn]) + 1
      host.edges.splice(place, 0, ...cycle.slice(turn), ...cycle.slice(0, turn))
      host.cycles += 1
    }
    if (later.length === waiting.length) throw new Error('a cycle hangs on no walk')
    waiting = later
  }
  return walks.map((walk) => walk.edges)
}
