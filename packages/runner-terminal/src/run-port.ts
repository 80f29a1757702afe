import type { Refusal, Snapshot } from '@lockwright/machine'
import type { ProvedMachine } from '@lockwright/proof'
import type { Entry, LockElsewhere, RunEvent, RunMode, RunRefusal, Signer } from '@lockwright/records'

/** What became of an event: the run has moved and its entry is on the disk, or it stands where it stood. */
export type Taken =
  | { readonly ok: true; readonly snapshot: Snapshot }
  | { readonly ok: false; readonly refusals: readonly [Refusal | RunRefusal, ...(Refusal | RunRefusal)[]] }

/** What a runner reads of an entry that is on record: when it was, by whom, where the run stood, and what. */
export type Recorded = Pick<Entry, 'at' | 'by' | 'state' | 'event'>

/** A file that was kept beside the records, by its SHA-256 in 64 hex digits; or why it was not. */
export type Kept =
  | { readonly ok: true; readonly name: string; readonly sha256: string }
  | { readonly ok: false; readonly why: string; readonly mend: string }

/** All that a runner knows of a run. The `Run` of the records fits it; a test may bring one that keeps no files. */
export interface RunPort {
  readonly mode: RunMode
  readonly machine: ProvedMachine
  readonly snapshot: Snapshot
  /** Everything on record, from the opening on. */
  readonly entries: readonly Recorded[]
  /** A rehearsal that is gone with the program. */
  readonly keptNowhere?: true
  /** Locks that hang on this equipment by the records of other runs; absent: no other run is known of. */
  readonly elsewhere?: readonly LockElsewhere[]
  /** What whoever steps the run has to know of its clock. */
  readonly warnings?: readonly string[]
  take(event: RunEvent): Taken
  sign(event: RunEvent, signer: Signer): Taken
}

/** The private keys of those who sign. */
export interface KeyRing {
  /** Whether the roster has a key for this person that can sign now. */
  readonly has: (person: Signer['person']) => boolean
  /** Opens a person's key with their passphrase. */
  readonly open: (
    person: Signer['person'],
    passphrase: string
  ) =>
    | { readonly ok: true; readonly signer: Signer }
    /** `final`: no further passphrase is tried for this person now. */
    | { readonly ok: false; readonly why: string; readonly mend: string; readonly final?: true }
}
