import { stateOf } from '@lockwright/machine'
import type { RunEvent } from '@lockwright/records'
import type { RunPort } from '../run-port.js'
import { type LiveReading, liveReadingOf, tellLive } from '../step/live-reading.js'
import { visible } from '../text/visible.js'

/** What is said once an event is on record, beside the step that comes next. */
export function saidOfEvent(run: RunPort, event: RunEvent): readonly string[] {
  switch (event.kind) {
    case 'reading':
      return saidOfLive(run, event)
    case 'note':
      return [visible(`Noted: ${event.text}`)]
    case 'attachment':
      return [visible(`Kept with the record: ${event.name}`)]
    case 'lock-hung':
      return [
        visible(`Recorded: lock ${event.lock} on ${event.point}. Mistyped? It stays; put it right with \`note\`.`)
      ]
    default:
      return []
  }
}

/** The reading just recorded, where it says that a source which was to be dead is not. */
export function liveOfEvent({ machine, snapshot }: RunPort, event: RunEvent): LiveReading | null {
  if (event.kind !== 'reading') return null
  const input = stateOf(machine, event.state).inputs.find(({ id }) => id === event.input)
  return input?.kind === 'reading' ? liveReadingOf(snapshot, input) : null
}

function saidOfLive(run: RunPort, event: RunEvent): readonly string[] {
  const live = liveOfEvent(run, event)
  return live === null ? [] : [tellLive(run.machine, live)]
}
