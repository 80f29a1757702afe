import type { Machine } from '@lockwright/machine'
import { pathsOf, tellGeneration } from '@lockwright/proof'
import type { NumberedWay } from './guide-along.js'

/** Every run that `paths` lists for rehearsal, one generation of the equipment after the other, counted from 1. */
export function numberedWays(machine: Machine): readonly NumberedWay[] {
  const ways = pathsOf(machine).generations.flatMap(({ generation, rehearsal }) =>
    rehearsal.runs.map((way) => ({ way, generation: tellGeneration(generation) }))
  )
  return ways.map((one, index) => ({ ...one, number: index + 1, of: ways.length }))
}
