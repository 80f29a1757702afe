import { type Machine, stateOf } from '@lockwright/machine'
import type { Recorded } from '../run-port.js'
import { optionsOf } from '../step/options.js'
import type { Page } from '../step/screen.js'
import { clockTime } from '../text/clock-time.js'
import { visible } from '../text/visible.js'

/** Everything that was recorded so far, the latest first: when, by whom, at which step, and what. */
export function recordPage(machine: Machine, entries: readonly Recorded[]): Page {
  return {
    title: 'What was recorded so far, the latest first',
    lines: entries
      .toReversed()
      .map((entry) =>
        visible(
          `${clockTime(entry.at)} ${entry.by}, ${stateOf(machine, entry.state).title}: ${tellEntry(machine, entry)}`
        )
      )
  }
}

/** What people typed into an event, in the order in which it is told. */
const told = ['mode', 'source', 'typed', 'point', 'lock', 'owner', 'to', 'meaning', 'text', 'name', 'reason', 'left']

function tellEntry(machine: Machine, { event, state }: Recorded): string {
  const what = event.kind.replaceAll('-', ' ')
  if (event.kind === 'choice') {
    const option = optionsOf(machine, stateOf(machine, state)).find(({ answer }) => answer === event.answer)
    return `${what}, ${option?.label ?? event.answer}`
  }
  const values = new Map<string, unknown>(Object.entries(event))
  return [what, ...told.map((key) => values.get(key)).filter((value) => typeof value === 'string')].join(', ')
}
