import { type Exit, type Machine, type Snapshot, type State, stateOf } from '@lockwright/machine'
import type { RunEvent } from '@lockwright/records'
import { prose } from '../text/prose.js'

/** Prose between the answer and the step where the run now rests: what the author wrote at the head of the branches taken. */
export function saidOnTheWay(machine: Machine, before: Snapshot, event: RunEvent, after: Snapshot): readonly string[] {
  const said: string[] = []
  let exit = exitBy(stateOf(machine, before.state), event)
  // Each passing state is met once at most on the way, so the machine's size bounds the walk.
  for (let steps = 0; exit !== undefined && steps < machine.states.length; steps++) {
    if ('says' in exit) said.push(...prose(exit.says))
    if (exit.to === after.state) break
    exit = passingExit(stateOf(machine, exit.to), after)
  }
  return said
}

function exitBy(state: State, event: RunEvent): Exit | undefined {
  switch (event.kind) {
    case 'choice':
      return state.exits.find(
        (exit) =>
          (exit.on === 'answer' && exit.answer === event.answer) ||
          (exit.on === 'identified' && exit.value === event.answer) ||
          (exit.on === 'outside' && event.answer === 'outside')
      )
    case 'late':
      return state.exits.find(({ on }) => on === 'late')
    case 'done':
    case 'signed':
    case 'deviation':
      return state.exits.find(({ on }) => on === 'done' || on === 'inside')
    default:
      return undefined
  }
}

function passingExit(state: State, { ledger }: Snapshot): Exit | undefined {
  if (state.kind === 'branch') {
    return state.exits.find((exit) => exit.on === 'value' && exit.value === ledger.axes[state.axis])
  }
  return state.exits.find(({ on }) => on === 'done')
}
