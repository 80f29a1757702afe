import type { Machine } from '@lockwright/machine'
import type { GenerationGraph } from './generation-graph.js'
import { leastFlow } from './least-flow.js'
import { walksOfFlow } from './walks-of-flow.js'
import { takes, type Way, type WayStep, wayOf } from './way.js'

/** A run to rehearse; `first` counts the exits that no run before it took. */
export type RehearsalRun = Way & { readonly first: number }

export interface Rehearsal {
  /** So many runs pass every step and take every exit, and no fewer do. */
  readonly fewest: number
  /** Those runs; empty where they have more than `listedExits` exits in all, which nobody reads. */
  readonly runs: readonly RehearsalRun[]
  /** How many exits there are to take. */
  readonly exits: number
  /** Why fewer do not do: as many exits as there are runs, no two of which one run can take. */
  readonly apart: readonly WayStep[]
}

/** Longer lists of runs are counted and not written out. */
export const listedExits = 200_000

/**
 * The fewest runs that take every exit of every state that the generation can come to. A loop is gone round by a run that
 * passes it anyway, once for each exit that needs it, so loops cost no runs of their own.
 */
export function rehearsalOf(machine: Machine, graph: GenerationGraph): Rehearsal {
  const { nodes, edges } = graph
  const ends = new Set(nodes.flatMap(({ out }, node) => (out.length === 0 ? [node] : [])))
  const least = leastFlow(nodes.length, edges, ends)
  const length = least.flow.reduce((sum, times) => sum + times, 0)
  const listed = length > listedExits ? [] : walksOfFlow(nodes.length, edges, least.flow, least.walks)
  // A machine of a single state has nothing to take, and still one run.
  const walks = edges.length === 0 ? [[]] : listed
  const taken = new Set<number>()
  const runs = walks.map((walk): RehearsalRun => {
    const before = taken.size
    for (const edge of walk) taken.add(edge)
    const last = edges[walk.at(-1) ?? -1]?.to ?? 0
    return { ...wayOf(machine, graph, walk, last), first: taken.size - before }
  })
  const apart = least.apart.map((index): WayStep => {
    const { from, exit } = edges[index] as GenerationGraph['edges'][number]
    const { state } = nodes[from] as GenerationGraph['nodes'][number]
    return { state: state.id, line: state.span.line, title: state.title, takes: takes(state, exit) }
  })
  return { fewest: Math.max(1, least.walks), runs, exits: edges.length, apart }
}
