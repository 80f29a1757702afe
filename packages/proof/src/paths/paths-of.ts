import type { AxisId } from '@lockwright/language'
import type { Machine } from '@lockwright/machine'
import { generationGraph } from './generation-graph.js'
import { type Generation, generationsOf, openAxes } from './generations.js'
import { type Rehearsal, rehearsalOf } from './rehearsal.js'
import { type WaysThrough, waysThrough } from './ways-through.js'

export interface GenerationPaths {
  readonly generation: Generation
  readonly ways: WaysThrough
  readonly rehearsal: Rehearsal
}

export interface Paths {
  readonly procedure: string
  readonly revision: number
  /** Axes that are not told apart, for there are too many combinations: every value of them counts as a way of its own. */
  readonly open: readonly AxisId[]
  readonly generations: readonly GenerationPaths[]
}

/** The ways through a machine, generation by generation, and the runs to rehearse. */
export function pathsOf(machine: Machine): Paths {
  const generations = generationsOf(machine)
  return {
    procedure: machine.procedure,
    revision: machine.revision,
    open: openAxes(machine, generations),
    generations: generations.map((generation) => {
      const graph = generationGraph(machine, generation)
      return { generation, ways: waysThrough(machine, graph), rehearsal: rehearsalOf(machine, graph) }
    })
  }
}
