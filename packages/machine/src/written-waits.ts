import type { Quantity } from '@lockwright/energy'
import type { Machine } from './machine.js'

/** The wait that the procedure writes for each source, by its id; of several the shortest, for it too must be enough. */
export function writtenWaits({ states }: Pick<Machine, 'states'>): Readonly<Record<string, Quantity>> {
  const waits: Record<string, Quantity> = {}
  for (const state of states) {
    if (state.kind !== 'relieve' || state.wait === null) continue
    for (const source of state.sources) {
      const known = waits[source]
      if (known === undefined || state.wait.interval.low < known.interval.low) waits[source] = state.wait
    }
  }
  return waits
}
