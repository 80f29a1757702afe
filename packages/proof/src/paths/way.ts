import type { Exit, Machine, State, StateId } from '@lockwright/machine'
import type { GenerationGraph, GraphNode } from './generation-graph.js'
import { existsOn } from './generations.js'

/** One step of a way; what is passed without asking is left out. */
export interface WayStep {
  readonly state: StateId
  readonly line: number
  readonly title: string
  /** What was answered or found there; null where the step is simply done. */
  readonly takes: string | null
}

/** A way through the machine on one generation, to an end. */
export interface Way {
  readonly steps: readonly WayStep[]
  /** Usual minutes of the steps as written, plus every wait that they ask for. */
  readonly minutes: number
  /** Steps for which the procedure gives neither minutes nor a wait; they count as nothing. */
  readonly untimed: number
}

/** What leaving a state by this exit says, as a person reads it; null for `done`. */
export function takes(state: State, exit: Exit): string | null {
  switch (exit.on) {
    case 'done':
      return null
    case 'answer':
      return exit.label
    case 'identified':
    case 'value':
      return exit.value
    case 'inside':
      return state.exits.length > 1 ? 'within limits' : null
    case 'again':
      return 'out of limits, taken again'
    case 'outside':
      return 'stays out of limits'
    case 'late':
      return 'not in time'
  }
}

const secondsInMinute = 60

/** Usual minutes at a node: those written, and its waits for what exists on the generation. */
export function minutesAt(machine: Machine, { generation }: GenerationGraph, node: GraphNode): number {
  if (node.passed) return 0
  return (node.state.minutes ?? 0) + waitSeconds(machine, generation, node) / secondsInMinute
}

function waitSeconds(machine: Machine, generation: GenerationGraph['generation'], node: GraphNode): number {
  return node.state.inputs.reduce((sum, input) => {
    if (input.kind !== 'wait') return sum
    const source = machine.sources.find(({ id }) => id === input.source)
    const asked = source === undefined || existsOn(generation, node.known, source.only)
    return asked ? sum + input.seconds : sum
  }, 0)
}

/** Whether the step takes time that the procedure does not say. */
function isUntimed(machine: Machine, graph: GenerationGraph, node: GraphNode): boolean {
  switch (node.state.kind) {
    case 'branch':
    case 'timer':
    case 'back':
    case 'stop':
    case 'finish':
    case 'notice':
      return false
    default:
      return !node.passed && node.state.minutes === null && minutesAt(machine, graph, node) === 0
  }
}

/** A list of edges as a way; `last` is the node where it ends. */
export function wayOf(machine: Machine, graph: GenerationGraph, edges: readonly number[], last: number): Way {
  const legs = edges.map((index) => {
    const edge = graph.edges[index]
    if (edge === undefined) throw new Error('the way is not of this graph')
    return { node: nodeAt(graph, edge.from), exit: edge.exit }
  })
  const end = nodeAt(graph, last)
  const nodes = [...legs.map(({ node }) => node), end]
  const steps = legs.flatMap(({ node, exit }): WayStep[] => {
    const taken = node.passed ? null : takes(node.state, exit)
    const silent = node.passed || node.state.kind === 'timer' || (node.state.kind === 'branch' && taken === null)
    return silent ? [] : [{ ...stepAt(node), takes: taken }]
  })
  return {
    steps: [...steps, { ...stepAt(end), takes: null }],
    minutes: nodes.reduce((sum, node) => sum + minutesAt(machine, graph, node), 0),
    untimed: nodes.filter((node) => isUntimed(machine, graph, node)).length
  }
}

function nodeAt({ nodes }: GenerationGraph, index: number): GraphNode {
  const node = nodes[index]
  if (node === undefined) throw new Error('the node is not of this graph')
  return node
}

function stepAt({ state }: GraphNode): Omit<WayStep, 'takes'> {
  return { state: state.id, line: state.span.line, title: state.title }
}
