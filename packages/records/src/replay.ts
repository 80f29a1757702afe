import { advance, type Machine, type Snapshot, start } from '@lockwright/machine'
import { type Entry, eventOf } from './entry.js'

/** Where each entry led, and the first that does not follow from what stands before it. */
export interface Replay {
  /** Before the first entry, and after each one that was taken. */
  readonly snapshots: readonly [Snapshot, ...Snapshot[]]
  /** After the last one that was taken. */
  readonly snapshot: Snapshot
  readonly stopped: { readonly seq: number; readonly why: string; readonly mend: string } | null
}

/** Takes the entries of a journal through `advance`, as they were taken when they were written. */
export function replay(machine: Machine, entries: readonly Entry[]): Replay {
  const snapshots: [Snapshot, ...Snapshot[]] = [start(machine)]
  let snapshot: Snapshot = snapshots[0]
  for (const entry of entries) {
    if (entry.state !== snapshot.state) {
      const why = `it says that the run stood at \`${entry.state}\`, where it stood at \`${snapshot.state}\`.`
      return { snapshots, snapshot, stopped: { seq: entry.seq, why, mend: '' } }
    }
    const advanced = advance(machine, snapshot, eventOf(entry))
    if (!advanced.ok) {
      const why = advanced.refusals.map((refusal) => refusal.why).join(' ')
      const mend = advanced.refusals.map((refusal) => refusal.mend).join(' ')
      return { snapshots, snapshot, stopped: { seq: entry.seq, why, mend } }
    }
    snapshot = advanced.snapshot
    snapshots.push(snapshot)
  }
  return { snapshots, snapshot, stopped: null }
}
