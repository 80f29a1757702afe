import type { AxisId } from '@lockwright/language'
import type { Exit, Machine, Only, State, StateId, Thing } from '@lockwright/machine'
import { existsOn, type Generation } from './generations.js'

/** An exit of a node. A loop leads back to where the way has been, or takes the same reading again. */
export interface GraphEdge {
  readonly from: number
  readonly to: number
  readonly exit: Exit
  readonly loop: boolean
}

/** A state together with the axes that are identified by then: what exists depends on them. */
export interface GraphNode {
  readonly state: State
  readonly known: ReadonlySet<AxisId>
  /** Passed without asking: its things are absent, or what it would identify is known. */
  readonly passed: boolean
  /** Indices of edges, in the order of the state's exits. */
  readonly out: readonly number[]
}

/** What can be walked on one generation. Node 0 is the start. */
export interface GenerationGraph {
  readonly generation: Generation
  readonly nodes: readonly GraphNode[]
  readonly edges: readonly GraphEdge[]
  /** Nodes that are reached without a loop, each behind all that lead to it without one. */
  readonly order: readonly number[]
}

/** Every state that can be stood in on the generation, and every exit that can be taken there. */
export function generationGraph(machine: Machine, generation: Generation): GenerationGraph {
  const states = new Map(machine.states.map((state) => [state.id, state]))
  const onlyOf = onlyByThing(machine)
  const indices = new Map<string, number>()
  const nodes: { state: State; known: ReadonlySet<AxisId>; passed: boolean; out: number[] }[] = []
  const edges: { from: number; to: number; exit: Exit; loop: boolean }[] = []

  const nodeOf = (id: StateId, known: ReadonlySet<AxisId>): number => {
    const key = `${[...known].sort().join(' ')} ${id}`
    const found = indices.get(key)
    if (found !== undefined) return found
    const state = states.get(id)
    // The compiler resolves every exit.
    if (state === undefined) throw new Error('an exit leads out of the machine')
    const present = (thing: Thing): boolean => existsOn(generation, known, onlyOf(thing))
    const absent = state.things.length > 0 && !state.things.some(present)
    const passed = absent || (state.kind === 'identify' && known.has(state.axis))
    indices.set(key, nodes.length)
    nodes.push({ state, known, passed, out: [] })
    return nodes.length - 1
  }

  nodeOf(machine.start, new Set())
  for (let from = 0; from < nodes.length; from += 1) {
    const { state, known, passed, out } = nodes[from] as GenerationGraph['nodes'][number] & { out: number[] }
    for (const exit of exitsOn(generation, state, passed)) {
      const learns = state.kind === 'identify' && exit.on === 'identified' && !known.has(state.axis)
      const to = nodeOf(exit.to, learns ? new Set([...known, state.axis]) : known)
      out.push(edges.length)
      edges.push({ from, to, exit, loop: exit.on === 'again' || state.kind === 'back' })
    }
  }
  return { generation, nodes, edges, order: orderOf(nodes, edges) }
}

function onlyByThing(machine: Machine): (thing: Thing) => Only {
  const found = new Map<string, Only>(
    [...machine.sources, ...machine.points, ...machine.restraints].map(({ id, only }) => [id, only])
  )
  return ({ id }) => found.get(id) ?? []
}

function exitsOn(generation: Generation, state: State, passed: boolean): readonly Exit[] {
  if (passed) {
    const onward = state.exits.find(({ on }) => on === 'done' || on === 'inside' || on === 'identified')
    return onward === undefined ? [] : [onward]
  }
  if (state.kind !== 'branch' && state.kind !== 'identify') return state.exits
  const value = generation.get(state.axis)
  return state.exits.filter((exit) =>
    exit.on === 'value' || exit.on === 'identified' ? value === undefined || exit.value === value : true
  )
}

/**
 * Depth first from the start; an edge to a node that is still open closes a loop and is marked so. What is left has no
 * cycle, and nodes in the reverse of the order in which they are closed stand behind all that lead to them.
 */
function orderOf(
  nodes: GenerationGraph['nodes'],
  edges: { readonly to: number; loop: boolean }[]
): GenerationGraph['order'] {
  const open = new Uint8Array(nodes.length)
  const seen = new Uint8Array(nodes.length)
  const closed: number[] = []
  const stack: { readonly node: number; next: number }[] = [{ node: 0, next: 0 }]
  seen[0] = 1
  open[0] = 1
  for (let top = stack.at(-1); top !== undefined; top = stack.at(-1)) {
    const edge = edges[nodes[top.node]?.out[top.next] ?? -1]
    top.next += 1
    if (edge === undefined) {
      open[top.node] = 0
      closed.push(top.node)
      stack.pop()
    } else if (open[edge.to] === 1) {
      edge.loop = true
    } else if (!edge.loop && seen[edge.to] === 0) {
      seen[edge.to] = 1
      open[edge.to] = 1
      stack.push({ node: edge.to, next: 0 })
    }
  }
  return closed.reverse()
}
