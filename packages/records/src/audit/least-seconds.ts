import type { Input, State, StateKind } from '@lockwright/machine'

/**
 * Seconds below which nobody can have read and done a step of this kind, besides what it asks for. Meant to catch ticking
 * without doing, not haste. Common practice, no source.
 */
const reading: Readonly<Record<StateKind, number>> = {
  gather: 2,
  notify: 2,
  operate: 2,
  look: 1,
  live: 2,
  shutdown: 2,
  identify: 1,
  isolate: 2,
  lock: 1,
  relieve: 1,
  restrain: 2,
  lamp: 1,
  prove: 2,
  tryout: 2,
  signoff: 1,
  work: 2,
  measure: 1,
  wait: 0,
  inspect: 2,
  clear: 2,
  remove: 2,
  unlock: 1,
  energize: 1,
  stop: 0,
  finish: 0,
  ask: 1,
  notice: 1,
  back: 0,
  branch: 0,
  timer: 0
}

const answering: Readonly<Record<Input['kind'], number>> = { box: 0.5, lock: 3, unlock: 2, reading: 2, wait: 0 }

/** The least time that a person needs for a state; a tenth of `minutes`, where the author gave the usual duration. */
export function leastSeconds(state: State): number {
  const asked = state.inputs.reduce((sum, input) => sum + answering[input.kind], reading[state.kind])
  return Math.max(asked, ((state.minutes ?? 0) * 60) / 10)
}
