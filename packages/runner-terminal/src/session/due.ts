import type { PersonId } from '@lockwright/machine'
import { type Machine, type Snapshot, stateOf } from '@lockwright/machine'
import type { RunEvent } from '@lockwright/records'
import { later } from '../step/asked.js'

/** Something that the clock alone brings about. */
export interface Due {
  /** RFC 3339. */
  readonly at: string
  readonly event: RunEvent
}

/** The next thing that the clock brings about where the run stands: a wait that ends, a time that runs out. */
export function nextDue(machine: Machine, snapshot: Snapshot, by: PersonId): Due | undefined {
  if (snapshot.status !== 'running' || snapshot.recheck.length > 0) return undefined
  const state = stateOf(machine, snapshot.state)
  const waits = state.inputs.flatMap((input): readonly Due[] => {
    const wait = input.kind === 'wait' ? snapshot.progress.waits[input.id] : undefined
    if (input.kind !== 'wait' || wait === undefined || wait.over) return []
    return [
      { at: later(wait.startedAt, input.seconds), event: { kind: 'wait-over', state: state.id, input: input.id, by } }
    ]
  })
  const lates = state.exits.flatMap((exit): readonly Due[] => {
    const at = exit.on === 'late' ? snapshot.deadlines[exit.within] : undefined
    // It runs out once the deadline is past, not when it is reached.
    return at === undefined ? [] : [{ at: later(at, 0.001), event: { kind: 'late', state: state.id, by } }]
  })
  return [...waits, ...lates].sort((first, second) => Date.parse(first.at) - Date.parse(second.at))[0]
}
