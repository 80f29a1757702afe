import { type Machine, stateOf } from '@lockwright/machine'
import type { Entry } from './entry.js'
import type { RunRefusal } from './run-types.js'

/** Two clocks of one computer may differ by this much and still agree, in milliseconds. */
const slack = 2000

/**
 * Why a wait is not over though the wall clock says so: it was set on meanwhile, by hand or over the network, and the
 * clock that never runs back says less. Null: nothing speaks against it. Where the computer was started anew in between,
 * nothing but the wall clock has counted that time, and the entries say no more than it does.
 */
export function stillWaiting(machine: Machine, before: readonly Entry[], entry: Entry): RunRefusal | null {
  const { event } = entry
  if (event.kind !== 'wait-over') return null
  const start = before.findLast(
    (one) => one.event.kind === 'wait-started' && one.event.state === event.state && one.event.input === event.input
  )
  const input = stateOf(machine, entry.state).inputs.find(({ id }) => id === event.input)
  if (start === undefined || input?.kind !== 'wait') return null
  const left = input.seconds - (entry.elapsed - start.elapsed) / 1000
  if (left * 1000 <= slack) return null
  return {
    kind: 'too-early',
    obligation: null,
    why: `The wait has ${Math.ceil(left)} s to go: the clock of this computer was set on since it began.`,
    mend: 'Wait it out; stored energy does not go by the clock. Then put the clock right, and note what happened.'
  }
}
