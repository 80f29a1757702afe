import type { Refusal, Snapshot } from '@lockwright/machine'
import type { ProvedMachine } from '@lockwright/proof'
import type { RunEvent, RunMode, RunRefusal, Signer } from '@lockwright/records'

/** What became of an event: the run has moved and its entry is on the disk, or it stands where it stood. */
export type Taken =
  | { readonly ok: true; readonly snapshot: Snapshot }
  | { readonly ok: false; readonly refusals: readonly [Refusal | RunRefusal, ...(Refusal | RunRefusal)[]] }

/** All that a runner knows of a run. The `Run` of the records fits it; a test may bring one that keeps no files. */
export interface RunPort {
  readonly mode: RunMode
  readonly machine: ProvedMachine
  readonly snapshot: Snapshot
  take(event: RunEvent): Taken
  sign(event: RunEvent, signer: Signer): Taken
}

/** Opens a person's private key; null stands for a run that is signed by name alone (a rehearsal). */
export type KeyRing = (
  person: Signer['person'],
  passphrase: string
) =>
  | { readonly ok: true; readonly signer: Signer }
  | { readonly ok: false; readonly why: string; readonly mend: string }
