import type { RoleId } from '@lockwright/language'
import type { PersonId } from '@lockwright/machine'
import type { Signer } from '@lockwright/records'
import type { Kept, KeyRing } from '../run-port.js'
import type { OfferInstruments, UnfitInstrument } from '../step/with-instrument.js'

/** How a session at the terminal ended; only the first two close the run. */
export type Ended = 'finished' | 'stopped' | 'paused' | 'left' | 'input-ended'

export interface SessionOptions {
  /** Who sits at the terminal first. */
  readonly person: PersonId
  /** null: signed by name alone, as a rehearsal always is. Whoever has a key also signs how the run is closed. */
  readonly keys: KeyRing | null
  /** RFC 3339, by the same clock that the records read. */
  readonly now: () => string
  /** Milliseconds of a clock that nobody can set: one that is set on makes no wait shorter then. */
  readonly elapsed?: () => number
  /** The run was not begun just now: the locks are looked at before anything goes on. */
  readonly takenUp: boolean
  /** Why this person may not sign in this role, by the roster; null where they may. Asked before any passphrase is. */
  readonly barred?: (person: PersonId, role: RoleId) => { readonly why: string; readonly mend: string } | null
  /** Ids of those on the roster, who alone can be named; without it anybody can. */
  readonly people?: () => readonly PersonId[]
  /** Somebody's name as the roster has it; null where it is not known. */
  readonly nameOf?: (person: PersonId) => string | null
  /** Instruments of the site that fit a reading; without it no record has to name one. */
  readonly instruments?: OfferInstruments
  /** Why one that is named does not fit. */
  readonly unfit?: UnfitInstrument
  /** What is not as it should be whatever the step is, such as a lock that hangs for longer than a shift. */
  readonly warnings?: () => readonly string[]
  /** In a rehearsal along a given way: what that way does where the run stands. */
  readonly guide?: () => readonly string[]
  /** In a rehearsal with a clock of its own: sets it to this time (RFC 3339), so that a wait is over. */
  readonly skipTo?: (at: string) => void
  /** Keeps the file at this path beside the records; without it nothing can be attached. */
  readonly attach?: (path: string) => Kept
  /** The time to give to each event, where it comes from a printed sheet; else the records read the clock. */
  readonly stampAt?: () => string
  /** Whoever copies a printed sheet into the record signs for its sign-offs and for how it ended; the ink signed before. */
  readonly copiedBy?: Signer
}
