import { type Machine, type Snapshot, stateOf } from '@lockwright/machine'
import { whereDiskHolds } from '../disk/disk-trouble.js'
import type { Entry } from '../entry.js'
import type { LiveRun } from '../live-run.js'
import { good } from '../result.js'
import type { RunRefusal } from '../run-types.js'
import { elsewhereRefusals, notTakenOver } from './elsewhere-refusals.js'
import type { LockElsewhere } from './lock-elsewhere.js'
import { locksElsewhere } from './locks-elsewhere.js'

type Grounds = Pick<LiveRun, 'site' | 'machine' | 'mode' | 'enteredBy' | 'id'>

/** What the records of other runs say, for one run that moves. */
export interface WatchElsewhere {
  /** As it was read last; read now, where it never was. */
  seen(entries: readonly Entry[]): readonly LockElsewhere[]
  /** Reads anew where it matters to this entry, and tells why it may not be made. Throws what the disk says. */
  refusals(entries: readonly Entry[], entry: Entry, before: Snapshot, after: Snapshot): readonly RunRefusal[]
}

/** A rehearsal touches no equipment. Paper tells what has been; there the audit says so. */
export function watchElsewhere(run: Grounds): WatchElsewhere {
  let last: readonly LockElsewhere[] | null = run.mode === 'rehearsal' ? [] : null
  const look = (): readonly LockElsewhere[] => {
    last = locksElsewhere(run.site, run.machine.equipment.tag, run.id)
    return last
  }
  return {
    seen: (entries) => {
      const read = last === null ? whereDiskHolds(run.site.folder, () => good(look())) : good(last)
      return read.ok ? notTakenOver(read.value, entries) : []
    },
    refusals: (entries, entry, before, after) => {
      if (run.mode === 'rehearsal' || !matters(run.machine, entry, before, after)) return []
      const found = notTakenOver(look(), entries)
      return run.enteredBy === null ? elsewhereRefusals(run.machine, found, entry, before, after) : []
    }
  }
}

function matters(machine: Machine, { event }: Entry, before: Snapshot, after: Snapshot): boolean {
  switch (event.kind) {
    case 'opened':
    case 'resumed':
    case 'lock-hung':
    case 'joined':
    case 'handed-over':
    case 'finished':
      return true
    case 'lock-removed':
      return event.from !== undefined
    default:
      if (event.kind === 'done' && stateOf(machine, before.state).kind === 'energize') return true
      return Object.entries(before.ledger.points).some(
        ([point, was]) => (after.ledger.points as Readonly<Record<string, string>>)[point] !== was
      )
  }
}
