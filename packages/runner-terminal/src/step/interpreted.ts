import type { Machine, PersonId, Snapshot } from '@lockwright/machine'
import type { LockElsewhere, RunEvent, Signer } from '@lockwright/records'
import type { KeyRing, Recorded } from '../run-port.js'
import type { Confirmation } from './confirmation.js'
import type { Desk } from './desk.js'
import type { Page } from './screen.js'
import type { OfferInstruments, UnfitInstrument } from './with-instrument.js'

/** What a line is interpreted against. */
export interface Sitting {
  readonly machine: Machine
  readonly snapshot: Snapshot
  /** Everything on record, from the opening on. */
  readonly entries: readonly Recorded[]
  readonly desk: Desk
  /** Who answers now. */
  readonly person: PersonId
  /** null: signed by name alone. */
  readonly keys: KeyRing | null
  /** Ids of those on the roster; empty where there is none. */
  readonly people: readonly PersonId[]
  /** Why this id cannot work here; null where it can. */
  readonly stranger: (person: PersonId) => { readonly why: string; readonly mend: string } | null
  readonly offer: OfferInstruments | undefined
  readonly unfit: UnfitInstrument | undefined
  /** Whether people give their word for what is recorded of them, and whether whoever is at the keys has given it. */
  readonly vouch: {
    readonly needed: boolean
    readonly given: boolean
    /** As the roster has it; null where it is not known. */
    readonly nameOf: (person: PersonId) => string | null
  }
  /** Locks that hang on this equipment by the records of other runs. */
  readonly elsewhere: readonly LockElsewhere[]
  /** The clock is that of a rehearsal: a wait can be passed by. */
  readonly skips: boolean
}

/** What a typed line means. */
export type Interpreted =
  /** Nothing was asked for. */
  | { readonly kind: 'nothing' }
  /** To be recorded; `last` confirmed it and does not confirm the next thing too. */
  | {
      readonly kind: 'event'
      readonly event: RunEvent
      readonly last: Confirmation | null
      /** null: nobody was asked to sign. `nobody`: whoever closes the run was asked and does not. */
      readonly signer: Signer | 'nobody' | null
    }
  /** Noted on the desk alone. */
  | { readonly kind: 'desk'; readonly desk: Desk }
  | { readonly kind: 'page'; readonly page: Page }
  /** Recorded first, then what it goes before: somebody's word for it, or what was seen. */
  | {
      readonly kind: 'vouched'
      readonly note: Extract<RunEvent, { readonly kind: 'note' }>
      readonly signer: Signer | null
      readonly next: Interpreted
    }
  /** Somebody else answers from now on. */
  | { readonly kind: 'person'; readonly person: PersonId }
  /** The clock of the rehearsal is set to the end of the wait that runs. */
  | { readonly kind: 'skip' }
  /** A file at this path is to be kept with the record. */
  | { readonly kind: 'attach'; readonly path: string }
  /** The terminal is left; the run stays open as it is. */
  | { readonly kind: 'leave' }
  | { readonly kind: 'refused'; readonly why: string; readonly mend: string; readonly desk: Desk | null }

export function refuse(why: string, mend: string, desk: Desk | null = null): Interpreted {
  return { kind: 'refused', why, mend, desk }
}
