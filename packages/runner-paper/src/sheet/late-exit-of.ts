import type { Exit, State, StateId } from '@lockwright/machine'

export type LateExit = Extract<Exit, { on: 'late' }>

/** Where a clock's steps go when its time runs out: told once on the clock's own step; null on any other step. */
export function lateExitOf(clock: StateId, states: readonly State[]): LateExit | null {
  for (const { exits } of states) {
    for (const exit of exits) if (exit.on === 'late' && exit.within === clock) return exit
  }
  return null
}
