import { formatDuration } from '@lockwright/energy'
import { stateOf } from '@lockwright/machine'
import type { RunPort } from '../run-port.js'
import { againOnResuming } from '../step/again.js'
import { warnElsewhere } from '../step/lock-elsewhere.js'
import { missingLocks, tellMissing } from '../step/missing-lock.js'
import { tellEntry } from '../step/tell-entry.js'
import { wayOf } from '../step/way.js'
import { visible } from '../text/visible.js'

/** Where exactly an open run stands and what going on with it will ask for, in visible lines. `now`: RFC 3339. */
export function tellStanding({ machine, snapshot, entries, elsewhere = [] }: RunPort, now: string): readonly string[] {
  const state = stateOf(machine, snapshot.state)
  const section = machine.sections.find(({ id }) => id === state.section)
  const { step, about } = wayOf(machine, snapshot)
  const last = entries.at(-1)
  const ago = last === undefined ? 0 : Math.max(0, (Date.parse(now) - Date.parse(last.at)) / 1000)
  const locks = snapshot.locks.map(({ point, lock, person }) => `lock ${lock} of ${person} on ${point}`)
  return [
    `stands at ${section === undefined ? '' : `${section.title}, `}${state.title} (${state.id}), step ${step} of about ${about}`,
    ...(last === undefined
      ? []
      : [`last on record: ${tellEntry(machine, last)}, by ${last.by}, ${formatDuration(Math.round(ago))} ago`]),
    locks.length === 0 ? 'no lock hangs' : `hanging: ${locks.join(', ')}`,
    ...elsewhere.map(warnElsewhere),
    ...missingLocks(snapshot, entries).map(tellMissing),
    ...(last === undefined ? [] : againOnResuming(machine, snapshot, entries, last.by))
  ].map(visible)
}
