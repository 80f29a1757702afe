import type { AxisValueId } from '@lockwright/language'
import type { StateId } from '../ids.js'
import { pack, unpack } from '../ledger.js'
import type { Machine } from '../machine.js'
import { type Model, modelOf, type PackedLedger, stateOf } from '../model.js'
import { emptyDerived } from '../settle.js'
import type { Snapshot } from '../snapshot.js'
import { noProgress } from '../start.js'
import type { Exit, State } from '../state.js'
import { doStep, passedBy } from '../step.js'

/** The state's effects on the ledger, without leaving it. */
export function withEffects(machine: Machine, snapshot: Snapshot, state: State, value?: AxisValueId): Snapshot {
  const model = modelOf(machine)
  const answer = state.kind === 'identify' ? indexOfValue(machine, state.axis, value) : 0
  const after = doStep(model, pack(model, snapshot.ledger), state, answer, emptyDerived(model), () => {})
  return { ...snapshot, ledger: unpack(model, after) }
}

function indexOfValue(machine: Machine, axis: string, value: AxisValueId | undefined): number {
  return (machine.axes.find(({ id }) => id === axis)?.values.findIndex(({ id }) => id === value) ?? -1) + 1
}

/**
 * Leaves a state with its effects done, and goes on to the next state that asks for something.
 * Where the clock of a `within` block ran out before `at`, the step counts as done and the late branch follows.
 */
export function leave(machine: Machine, snapshot: Snapshot, state: State, exit: Exit, at: string): Snapshot {
  const value = exit.on === 'identified' ? exit.value : undefined
  const done = withEffects(machine, snapshot, state, value)
  return arrive(machine, done, (exit.on === 'late' ? exit : (lateExit(state, snapshot, at) ?? exit)).to, at)
}

/** Goes out by a late exit with the step not done. */
export function leaveUndone(machine: Machine, snapshot: Snapshot, exit: Exit, at: string): Snapshot {
  return arrive(machine, snapshot, exit.to, at)
}

/** The outermost `within` block whose time has run out; it stands first. */
export function lateExit(state: State, { deadlines }: Snapshot, at: string): Exit | undefined {
  return state.exits.find((exit) => {
    const deadline = exit.on === 'late' ? deadlines[exit.within] : undefined
    return deadline !== undefined && Date.parse(at) > Date.parse(deadline)
  })
}

/** Comes to rest at the first state from here that asks; branches, clocks and what is absent pass of themselves. */
export function arrive(machine: Machine, snapshot: Snapshot, to: StateId, at: string): Snapshot {
  const model = modelOf(machine)
  const packed = pack(model, snapshot.ledger)
  const deadlines: Record<StateId, string> = { ...snapshot.deadlines }
  let state = stateOf(machine, to)
  // A proven machine has no ring of passing states: an end can be reached from each. The bound holds all the same.
  for (let passed = 0; passed <= machine.states.length && passedBy(model, packed, state); passed += 1) {
    if (state.kind === 'timer') deadlines[state.id] = later(at, state.seconds)
    const exit = passingExit(model, state, packed)
    if (exit === undefined) break
    state = stateOf(machine, exit.to)
  }
  const open = new Set(state.exits.flatMap((exit) => (exit.on === 'late' ? [exit.within] : [])))
  return {
    ...snapshot,
    state: state.id,
    progress: noProgress,
    deadlines: Object.fromEntries(Object.entries(deadlines).filter(([timer]) => open.has(timer as StateId)))
  }
}

function later(at: string, seconds: number): string {
  return new Date(Date.parse(at) + seconds * 1000).toISOString()
}

function passingExit(model: Model, state: State, ledger: PackedLedger): Exit | undefined {
  if (state.kind !== 'branch') {
    return state.exits.find(({ on }) => on === 'done' || on === 'inside' || on === 'identified')
  }
  const axis = model.axisIndex.get(state.axis) ?? -1
  const value = model.machine.axes[axis]?.values[(ledger[model.layout.axes + axis] ?? 0) - 1]?.id
  return state.exits.find((exit) => exit.on === 'value' && exit.value === value)
}
