import type { Machine } from '@lockwright/machine'
import type { GenerationGraph } from './generation-graph.js'
import { minutesAt, type Way, wayOf } from './way.js'

/** How many ways there are. Big integers: a hundred questions in a row have more ways than a double can count. */
export interface WaysThrough {
  /** Ways to an end on which no state is passed twice: loops are not gone round. */
  readonly toFinish: bigint
  readonly toStop: bigint
  /** Ways to a state from which nothing leads on; only in a machine that is not proved. */
  readonly toNowhere: bigint
  /** Ways that end by going back, or by taking a reading again: each loop once for every way into it. */
  readonly intoLoops: bigint
  /** By expected minutes, then by number of steps; null where no end is reached. */
  readonly shortest: Way | null
  readonly longest: Way | null
  readonly shortestToFinish: Way | null
}

/** Which of two ways is to be kept. */
type Preference = (minutes: number, steps: number) => readonly [number, number]

const least: Preference = (minutes, steps) => [minutes, steps]
const most: Preference = (minutes, steps) => [-minutes, -steps]

/** One pass over the nodes in the order of the ways: nothing is enumerated. */
export function waysThrough(machine: Machine, graph: GenerationGraph): WaysThrough {
  const { nodes, edges, order } = graph
  const counts: bigint[] = nodes.map((_, node) => (node === 0 ? 1n : 0n))
  let intoLoops = 0n
  for (const node of order) {
    const count = counts[node] ?? 0n
    for (const edge of nodes[node]?.out ?? []) {
      const { to, loop } = edges[edge] as GenerationGraph['edges'][number]
      if (loop) intoLoops += count
      else counts[to] = (counts[to] ?? 0n) + count
    }
  }
  const ends = order.filter((node) => nodes[node]?.out.length === 0)
  const finishes = ends.filter((node) => nodes[node]?.state.kind === 'finish')
  const stops = ends.filter((node) => nodes[node]?.state.kind === 'stop')
  const sum = (some: readonly number[]): bigint => some.reduce((total, node) => total + (counts[node] ?? 0n), 0n)
  return {
    toFinish: sum(finishes),
    toStop: sum(stops),
    toNowhere: sum(ends) - sum(finishes) - sum(stops),
    intoLoops,
    shortest: best(machine, graph, ends, least),
    longest: best(machine, graph, ends, most),
    shortestToFinish: best(machine, graph, finishes, least)
  }
}

function best(machine: Machine, graph: GenerationGraph, ends: readonly number[], prefers: Preference): Way | null {
  const { nodes, edges, order } = graph
  const minutes: number[] = []
  const steps: number[] = []
  const via: number[] = []
  const isBetter = (one: readonly [number, number], other: readonly [number, number]): boolean =>
    one[0] < other[0] || (one[0] === other[0] && one[1] < other[1])
  minutes[0] = minutesAt(machine, graph, nodes[0] as GenerationGraph['nodes'][number])
  steps[0] = 1
  for (const node of order) {
    for (const index of nodes[node]?.out ?? []) {
      const { to, loop } = edges[index] as GenerationGraph['edges'][number]
      if (loop) continue
      const along = (minutes[node] ?? 0) + minutesAt(machine, graph, nodes[to] as GenerationGraph['nodes'][number])
      const count = (steps[node] ?? 0) + 1
      const known = minutes[to]
      if (known !== undefined && !isBetter(prefers(along, count), prefers(known, steps[to] ?? 0))) continue
      minutes[to] = along
      steps[to] = count
      via[to] = index
    }
  }
  const [first, ...others] = ends
  if (first === undefined) return null
  const rank = (node: number): readonly [number, number] => prefers(minutes[node] ?? 0, steps[node] ?? 0)
  const end = others.reduce((chosen, node) => (isBetter(rank(node), rank(chosen)) ? node : chosen), first)
  const way: number[] = []
  for (let index = via[end]; index !== undefined; index = via[edges[index]?.from ?? -1]) way.push(index)
  return wayOf(machine, graph, way.reverse(), end)
}
