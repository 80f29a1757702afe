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

/** When a wait is over by the wall clock, RFC 3339; one that was set on meanwhile makes it no shorter. */
export function waitEnds(startedAt: string, seconds: number, setOnSince: (startedAt: string) => number): string {
  return later(startedAt, seconds + Math.max(0, setOnSince(startedAt)) / 1000)
}

/** The next thing that the clock brings about where the run stands: a wait that ends, a time that runs out. */
export function nextDue(
  machine: Machine,
  snapshot: Snapshot,
  by: PersonId,
  setOnSince: (startedAt: string) => number = () => 0
): Due | undefined {
  if (snapshot.status !== 'running' || snapshot.recheck.length > 0) return undefined
  const state = stateOf(machine, snapshot.state)
  const waits = state.inputs.flatMap((input): readonly Due[] => {
    const wait = input.kind === 'wait' ? snapshot.progress.waits[input.id] : undefined
    if (input.kind !== 'wait' || wait === undefined || wait.over) return []
    return [
      {
        at: waitEnds(wait.startedAt, input.seconds, setOnSince),
        event: { kind: 'wait-over', state: state.id, input: input.id, by }
      }
    ]
  })
  const lates = state.exits.flatMap((exit): readonly Due[] => {
    const at = exit.on === 'late' ? snapshot.deadlines[exit.within] : undefined
    // It runs out once the deadline is past, not when it is reached.
    return at === undefined ? [] : [{ at: later(at, 0.001), event: { kind: 'late', state: state.id, by } }]
  })
  return [...waits, ...lates].sort((first, second) => Date.parse(first.at) - Date.parse(second.at))[0]
}
