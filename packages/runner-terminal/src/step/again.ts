import type { SourceId } from '@lockwright/language'
import { advance, type Event, type Machine, type PersonId, type Snapshot } from '@lockwright/machine'
import type { Recorded } from '../run-port.js'
import { visible } from '../text/visible.js'

/** Why a source that was proven dead is to be proven again: who read the record so far can tell what the break was. */
export function whyAgain(machine: Machine, entries: readonly Recorded[], source: SourceId): string {
  if (wasPaused(entries)) return 'the machine was left alone meanwhile, and what feeds it could have been switched on'
  return machine.sources.find(({ id }) => id === source)?.rebuilds === true
    ? 'it builds up again by itself'
    : 'energy could have come back meanwhile'
}

/** What going on now will ask to be proven again, each with its reason; empty where nothing is. */
export function againOnResuming(
  machine: Machine,
  snapshot: Snapshot,
  entries: readonly Recorded[],
  by: PersonId
): readonly string[] {
  const resumed = advance(machine, snapshot, { kind: 'resumed', locksOn: true, at: snapshot.at, by } as Event)
  const recheck = resumed.ok ? resumed.snapshot.recheck : snapshot.recheck
  return recheck.map((source) =>
    visible(`To be proven again: ${source}, because ${whyAgain(machine, entries, source)}.`)
  )
}

/** Whether the last break was a pause, and no fault of the tablet. */
function wasPaused(entries: readonly Recorded[]): boolean {
  const last = entries.findLastIndex(({ event }) => event.kind === 'resumed')
  const before = last < 0 ? entries.at(-1) : entries[last - 1]
  return entries.at(-1)?.event.kind === 'paused' || before?.event.kind === 'paused'
}
