import { type Machine, stateOf } from '@lockwright/machine'
import type { Recorded } from '../run-port.js'
import { optionsOf } from './options.js'

/** What people typed into an event, in the order in which it is told. */
const told = ['mode', 'source', 'typed', 'point', 'lock', 'owner', 'to', 'meaning', 'text', 'name', 'reason', 'left']

/** What was recorded, in a few words; not made visible yet. */
export function tellEntry(machine: Machine, { event, state }: Recorded): string {
  const what = event.kind.replaceAll('-', ' ')
  if (event.kind === 'choice') {
    const option = optionsOf(machine, stateOf(machine, state)).find(({ answer }) => answer === event.answer)
    return `${what}, ${option?.label ?? event.answer}`
  }
  if (event.kind === 'lock-removed' && event.absent !== undefined) {
    const { directedBy, verifiedAway, triedToReach, toldBeforeReturn } = event.absent
    const director = directedBy === undefined ? [] : [`directed by ${directedBy}`]
    return [what, event.point, event.owner, ...director, verifiedAway, triedToReach, toldBeforeReturn].join(', ')
  }
  const values = new Map<string, unknown>(Object.entries(event))
  return [what, ...told.map((key) => values.get(key)).filter((value) => typeof value === 'string')].join(', ')
}
