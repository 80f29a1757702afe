import type { Machine } from '@lockwright/machine'
import type { GenerationGraph } from '../paths/generation-graph.js'
import { type Gate, gateEffect } from './gate-bits.js'

/** The shortest way to a node on which a gate is not passed, or no longer holds, as nodes; null: every way passes it. */
export type WayWithout = (node: number) => readonly number[] | null

/**
 * Breadth first over pairs of a node and whether the gate holds on the way there. What happens at the node itself does
 * not count: the question is with what the node is come to.
 */
export function waysWithout(machine: Machine, graph: GenerationGraph, gate: Gate): WayWithout {
  const { nodes, edges } = graph
  const effect = gateEffect(machine, gate)
  const seen = new Uint8Array(nodes.length * 2)
  const from = new Int32Array(nodes.length * 2).fill(-1)
  const queue = [0]
  seen[0] = 1
  for (const pair of queue) {
    const node = pair >> 1
    const after = effect(nodes[node] as GenerationGraph['nodes'][number], graph) ?? pair & 1
    for (const edge of nodes[node]?.out ?? []) {
      const next = ((edges[edge]?.to ?? 0) << 1) | after
      if (seen[next] === 1) continue
      seen[next] = 1
      from[next] = pair
      queue.push(next)
    }
  }
  return (node) => {
    if (seen[node << 1] !== 1) return null
    const way: number[] = []
    for (let pair = node << 1; pair !== -1; pair = from[pair] ?? -1) way.push(pair >> 1)
    return way.reverse()
  }
}
