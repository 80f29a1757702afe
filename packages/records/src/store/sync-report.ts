import type { RecordsFault } from '../result.js'
import type { SignedName } from './store.js'

/** How many of a kind were sent, were there already, or could not be taken. */
export interface SyncCount {
  readonly sent: number
  readonly same: number
  readonly refused: number
}

/** `brought`: the shared store had a newer one, which now lies in the folder. `none`: there is none in the folder. */
export type SignedDone = 'sent' | 'same' | 'brought' | 'refused' | 'none'

/** What a sync did. */
export interface SyncReport {
  /** The site folder, and the store without its password. */
  readonly from: string
  readonly to: string
  readonly signed: Readonly<Record<SignedName, SignedDone>>
  readonly documents: SyncCount
  /** Runs of which something was sent, of which all was there, and of which something could not be taken. */
  readonly runs: SyncCount
  /** Of the runs that were sent: how many lines, and how many of these runs are open still. */
  readonly lines: number
  readonly open: number
  readonly leaves: SyncCount
  /** What was left out and does no harm: torn last lines. */
  readonly notes: readonly string[]
  /** What a person has to look at. */
  readonly findings: readonly RecordsFault[]
  /** Why it ended before its time; null: it came to its end. What stands by then stays, and the next sync goes on. */
  readonly stopped: RecordsFault | null
}

/** The same while it grows. */
export interface SyncTally {
  readonly signed: Record<SignedName, SignedDone>
  readonly documents: { sent: number; same: number; refused: number }
  readonly runs: { sent: number; same: number; refused: number }
  lines: number
  open: number
  readonly leaves: { sent: number; same: number; refused: number }
  readonly notes: string[]
  readonly findings: RecordsFault[]
}

export function newTally(): SyncTally {
  const none = () => ({ sent: 0, same: 0, refused: 0 })
  return {
    signed: { 'people.yaml': 'none', 'instruments.yaml': 'none' },
    documents: none(),
    runs: none(),
    lines: 0,
    open: 0,
    leaves: none(),
    notes: [],
    findings: []
  }
}
