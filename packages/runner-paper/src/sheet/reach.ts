import type { AxisId, AxisValueId } from '@lockwright/language'
import type { Exit, Machine, State, StateId } from '@lockwright/machine'
import type { Known } from './presence.js'

/** The axis on whose value the exits of this state depend; null where they depend on none. */
export function axisOf(state: State): AxisId | null {
  return state.kind === 'identify' || state.kind === 'branch' ? state.axis : null
}

/** The exits that can be taken once this much is known of the generation. */
export function openExits(state: State, known: Known): readonly Exit[] {
  const axis = axisOf(state)
  const value: AxisValueId | undefined = axis === null ? undefined : known.get(axis)
  return value === undefined ? state.exits : state.exits.filter((exit) => !('value' in exit) || exit.value === value)
}

/** The states to which some path leads, generation known as given. */
export function reach(machine: Machine, known: Known): ReadonlySet<StateId> {
  const byId = new Map(machine.states.map((state) => [state.id, state]))
  const seen = new Set<StateId>([machine.start])
  const queue: StateId[] = [machine.start]
  for (let id = queue.pop(); id !== undefined; id = queue.pop()) {
    const state = byId.get(id)
    if (state === undefined) continue
    for (const { to } of openExits(state, known)) {
      if (seen.has(to)) continue
      seen.add(to)
      queue.push(to)
    }
  }
  return seen
}
