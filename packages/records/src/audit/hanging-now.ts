import type { PersonId } from '@lockwright/machine'
import type { Leaf } from '../log/leaf.js'
import type { Roster } from '../roster.js'
import type { SheetRun } from '../sheets/sheets-of.js'
import { shiftEnd } from '../shift.js'
import type { Grounds } from './grounds.js'
import { nameOf } from './hanging-locks.js'
import type { KeptLock, KeptSheet } from './kept.js'
import type { HangingNow, OpenRun, RunAudit, TakenOffLater } from './report.js'
import { leafIn, type StoreLog } from './store-log.js'
import { laterRemoval, type TakenOff } from './taken-off.js'

const hour = 3_600_000

/** Locks that are still on by the record of one run. */
export function hangingNow(run: RunAudit, grounds: Grounds, at: string): readonly HangingNow[] {
  const { summary } = run
  const machine = summary === null ? null : grounds.machineOf(summary.machine).machine
  return (run.locks ?? []).map(({ lock, point, by, since }): HangingNow => {
    const device = machine?.points.find((one) => one.id === point)
    return {
      lock,
      point,
      device: device === undefined ? null : `${device.is}, ${device.where}`,
      by,
      since,
      hours: hoursBetween(since, at),
      pastShift: isPast(since, grounds.roster.ok ? grounds.roster.value : null, at),
      run: run.run,
      equipment: summary?.equipment ?? 'not known',
      status: summary?.status ?? 'not known',
      from: 'journal'
    }
  })
}

/** Locks of runs whose journals were not read again, as they were kept or as the leaves before number `until` have them. */
export function coveredLocks(
  log: StoreLog,
  until: number,
  off: readonly TakenOff[],
  roster: Roster | null,
  at: string
): { readonly hanging: readonly HangingNow[]; readonly taken: readonly TakenOffLater[] } {
  const hanging: HangingNow[] = []
  const taken: TakenOffLater[] = []
  for (const [index, left] of locksCovered(log, until).entries()) {
    const { lock, point, since, run, equipment, status } = left
    const by = nameOf(left.by as PersonId, roster)
    const removal = laterRemoval({ ...left, by }, off, roster)
    if (removal !== null) {
      const { seq, at: offAt } = removal
      taken.push({ lock, point, by, since, equipment, run, offIn: { run: removal.run, seq, at: offAt } })
      continue
    }
    hanging.push({
      lock,
      point,
      device: null,
      by,
      since,
      hours: hoursBetween(since, at),
      pastShift: isPast(since, roster, at),
      run,
      equipment,
      status,
      from: index < (log.kept?.locks.length ?? 0) ? 'kept' : 'log'
    })
  }
  return { hanging, taken }
}

/** Locks that hung when the run was closed, of every run that the first `until` leaves stand for; those kept come first. */
export function locksCovered(log: StoreLog, until: number): readonly KeptLock[] {
  const told = coveredLeaves(log, until).flatMap(({ run, equipment, status, closedAt, locks }) =>
    locks.map(({ point, lock, by, since }) => ({ run, equipment, status, closedAt, point, lock, by, since }))
  )
  return [...(log.kept?.locks ?? []), ...told]
}

/** Of the same runs those that were entered from a sheet. */
export function sheetsCovered(log: StoreLog, until: number): readonly KeptSheet[] {
  const told = coveredLeaves(log, until).flatMap(({ run, sheet, status, closedAt }): readonly KeptSheet[] =>
    sheet === undefined ? [] : [{ run, sheet, status, closedAt }]
  )
  return [...(log.kept?.sheets ?? []), ...told]
}

/** The same as runs that a sheet can be looked up in. */
export function coveredSheets(log: StoreLog, until: number): readonly SheetRun[] {
  return sheetsCovered(log, until).map(({ run, sheet, status, closedAt }) => ({
    run,
    sheet,
    status,
    openedAt: closedAt,
    lastAt: closedAt,
    file: `runs/${run}.jsonl`
  }))
}

/** Leaves before number `until` that have something to tell. */
function coveredLeaves({ telling }: StoreLog, until: number): readonly Leaf[] {
  return telling.flatMap((logged): readonly Leaf[] => {
    const leaf = logged.number < until ? leafIn(logged) : null
    return leaf === null ? [] : [leaf]
  })
}

/** The run, where it was not closed. Nobody waits for a rehearsal. */
export function openRun({ summary }: RunAudit): readonly OpenRun[] {
  if (summary === null || summary.status === 'finished' || summary.status === 'stopped') return []
  const { run, procedure, equipment, status, openedAt, openedBy, lastAt, mode } = summary
  return mode === 'rehearsal' ? [] : [{ run, procedure, equipment, status, openedAt, openedBy, lastAt, mode }]
}

function isPast(since: string | null, roster: Roster | null, at: string): boolean {
  return since !== null && Date.parse(at) > Date.parse(shiftEnd(since, roster))
}

function hoursBetween(since: string | null, at: string): number | null {
  return since === null ? null : Math.round(((Date.parse(at) - Date.parse(since)) / hour) * 10) / 10
}
