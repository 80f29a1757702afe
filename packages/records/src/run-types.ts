import type { KeyObject } from 'node:crypto'
import type { Event, PersonId, Refusal, Snapshot } from '@lockwright/machine'
import type { ProvedMachine } from '@lockwright/proof'
import type { Clock } from './clock.js'
import type { LockElsewhere } from './elsewhere/lock-elsewhere.js'
import type { BareEvent, Entry, RunId } from './entry.js'
import type { SetAside } from './journal.js'
import type { Site } from './site.js'

export type RunMode = Extract<Event, { readonly kind: 'opened' }>['mode']

/** What a runner hands in: an event and who caused it. `at` only in a run entered from paper: the time on the sheet. */
export type RunEvent = BareEvent & { readonly by: PersonId; readonly at?: string }

/** A person with an unlocked private key. */
export interface Signer {
  readonly person: PersonId
  readonly key: KeyObject
}

/** Why nothing was written: a refusal of `advance`, or one of the records. */
export type RunRefusal =
  | Refusal
  | {
      /**
       * `no-key`: it has to be signed; `not-qualified`: the roster says no; `instrument`: the list of instruments says
       * no; `lock-elsewhere`: the record of another run says no; `not-written`: the disk said no.
       */
      readonly kind: 'no-key' | 'not-qualified' | 'instrument' | 'lock-elsewhere' | 'not-written'
      readonly obligation: null
      readonly why: string
      readonly mend: string
    }

/** `ok`: the entry is on the disk and the run has moved. Else nothing was written and the run stands where it stood. */
export type Taken =
  | { readonly ok: true; readonly snapshot: Snapshot; readonly entry: Entry }
  | { readonly ok: false; readonly refusals: readonly [RunRefusal, ...RunRefusal[]] }

/** The object that every runner steps. One at a time may exist for a journal, on any computer. */
export interface Run {
  readonly id: RunId
  readonly mode: RunMode
  readonly machine: ProvedMachine
  /** Path of the journal. */
  readonly file: string
  /** A torn last line found on resuming; null: none. */
  readonly setAside: SetAside | null
  readonly snapshot: Snapshot
  readonly entries: readonly Entry[]
  /**
   * Locks that hang on this equipment by the records of other runs, and that this run has not taken over or off: as the
   * disk had it at the last entry. None in a rehearsal.
   */
  readonly elsewhere: readonly LockElsewhere[]
  /** What whoever steps the run has to know of its clock, whole sentences. */
  readonly warnings: readonly string[]
  /** Once this returns `ok`, the entry is on the disk. */
  take(event: RunEvent): Taken
  /** The same with the signer's key: for `signed` and `deviation`, and for `stopped` and `finished` where the closer has a key. */
  sign(event: RunEvent, signer: Signer): Taken
  /** Lets go of the journal. The run can be resumed at any later time. */
  close(): void
}

export interface StartRun {
  readonly site: Site
  readonly machine: ProvedMachine
  /** `issued`: refused unless a coordinator issued exactly this machine. */
  readonly mode: RunMode
  readonly by: PersonId
  readonly clock: Clock
  /** Else made from the date, the equipment and four random bytes. */
  readonly id?: string
  /** Answers come from a printed sheet: `by` worked with it and opened it at `at`, `enteredBy` types it in. */
  readonly onPaper?: {
    readonly enteredBy: PersonId
    readonly at: string
    /** Serial number of the sheet, where it had one. */
    readonly sheet?: string
  }
}

export interface ResumeRun {
  readonly site: Site
  readonly run: RunId
  /** The machine with the digest that the journal names, proved again. */
  readonly machine: ProvedMachine
  readonly clock: Clock
}

/** One row of the list of runs, read from the journal without replaying it. */
export interface RunSummary {
  readonly run: RunId
  readonly file: string
  readonly mode: RunMode
  readonly onPaper: boolean
  /** Serial number of the printed sheet that it was entered from; null: it had none, or the run was stepped. */
  readonly sheet: string | null
  readonly machine: string
  readonly procedure: string
  readonly revision: number
  readonly equipment: string
  readonly openedAt: string
  readonly openedBy: PersonId
  readonly lastAt: string
  readonly entries: number
  readonly status: 'running' | 'paused' | 'stopped' | 'finished'
}
