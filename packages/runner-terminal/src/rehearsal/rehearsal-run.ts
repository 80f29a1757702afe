import { advance, type Event, type PersonId, type Snapshot, start } from '@lockwright/machine'
import type { ProvedMachine } from '@lockwright/proof'
import type { BareEvent, RunEvent } from '@lockwright/records'
import type { Recorded, RunPort, Taken } from '../run-port.js'
import type { RehearsalClock } from './rehearsal-clock.js'

/** A run that is kept nowhere: it is gone with the program, so nothing of it can be taken for work on a machine. */
export function rehearsalRun(
  machine: ProvedMachine,
  by: PersonId,
  clock: Pick<RehearsalClock, 'now' | 'afterAnswer'>
): RunPort {
  let snapshot: Snapshot = start(machine)
  const entries: Recorded[] = []
  const take = (event: RunEvent): Taken => {
    const { by: person, at, ...rest } = event
    const stamped = { at: at ?? clock.now(), by: person }
    const advanced = advance(machine, snapshot, { ...rest, ...stamped } as Event)
    if (!advanced.ok) return advanced
    entries.push({ ...stamped, state: snapshot.state, event: rest as BareEvent })
    snapshot = advanced.snapshot
    clock.afterAnswer()
    return advanced
  }
  take({ kind: 'opened', mode: 'rehearsal', by })
  return {
    mode: 'rehearsal',
    keptNowhere: true,
    machine,
    get snapshot() {
      return snapshot
    },
    entries,
    take,
    sign: take
  }
}
