import { type Machine, stateOf } from '@lockwright/machine'
import type { Recorded } from '../run-port.js'
import type { Page } from '../step/screen.js'
import { tellEntry } from '../step/tell-entry.js'
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
