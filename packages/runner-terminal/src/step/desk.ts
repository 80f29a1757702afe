import type { PointId } from '@lockwright/language'
import type { CrewLock, HungLock, Input, LockId, PersonId, Refusal, StateId } from '@lockwright/machine'
import type { RunEvent } from '@lockwright/records'
import type { Confirmation } from './confirmation.js'
import type { OfferedInstrument } from './with-instrument.js'

/** An event that closes a run: whoever closes it signs that too, where they have a key. */
export type ClosingEvent = Extract<RunEvent, { readonly kind: 'finished' | 'stopped' }>

/** An event that whoever causes it signs with their key, without a step that asks for it. */
export type OwnEvent = ClosingEvent | Extract<RunEvent, { readonly kind: 'deviation' }>

/** A question that the runner itself asks on the way to an event; an empty line takes it back. */
export type Question =
  | { readonly kind: 'stop-reason' }
  /** A need of `stop` does not hold: `needs` says what must be locked or closed first. */
  | { readonly kind: 'stop-left'; readonly reason: string; readonly needs: readonly Pick<Refusal, 'why' | 'mend'>[] }
  | { readonly kind: 'pause-reason' }
  | { readonly kind: 'note' }
  /** What is looked at is not as the step says: what is seen instead stops the work. */
  | { readonly kind: 'not-so' }
  /** After a break: which of the locks is not on. */
  | { readonly kind: 'missing-lock' }
  /** How a lock that was missing came to hang again. */
  | { readonly kind: 'found-lock'; readonly lock: CrewLock }
  /** `signs`: what is signed; null for the sign-off that the step asks for. */
  | { readonly kind: 'passphrase'; readonly person: PersonId; readonly signs: OwnEvent | null }
  /** No passphrase was given: whether the run is to be closed unsigned. A stop must never hang on a passphrase. */
  | { readonly kind: 'unsigned'; readonly closes: ClosingEvent }
  | { readonly kind: 'deviation-reason' }
  /**
   * 29 CFR 1910.147(e)(3): the conditions under which an absent person's lock comes off; those answered so far.
   * `directedBy`: who directs it for the employer; null: asked for now.
   */
  | {
      readonly kind: 'absent-owner'
      readonly owner: PersonId
      readonly point: PointId
      readonly directedBy: PersonId | null
      readonly answers: readonly string[]
      /** A lock that an earlier run left on; absent: one of this run. */
      readonly from?: { readonly run: string; readonly lock: LockId }
    }
  /** With which instrument a reading is taken, of those that fit. */
  | {
      readonly kind: 'instrument'
      readonly input: Extract<Input, { readonly kind: 'reading' }>
      readonly offered: readonly OfferedInstrument[]
    }
  /** Somebody gives their word for what is recorded of them: by their passphrase, or by name where they have no key. */
  | {
      readonly kind: 'word'
      readonly person: PersonId
      readonly by: 'passphrase' | 'name'
      /** They are at the keys from now on; or what is recorded then. */
      readonly gives: { readonly kind: 'comes' } | { readonly kind: 'records'; readonly event: RunEvent }
    }
  /** Who is at the keys from now on: one of these, or another id. */
  | { readonly kind: 'who'; readonly people: readonly PersonId[] }
  /** The locks of somebody who comes to work here, asked for point by point; those on already. */
  | {
      readonly kind: 'crew-locks'
      readonly comes: 'joins' | 'takes over'
      readonly person: PersonId
      readonly locks: readonly HungLock[]
    }
  /** A reading that hardly can be right: typed once more it counts. */
  | { readonly kind: 'surprise'; readonly typed: string; readonly why: string }
  /** A number of a lock without a digit: typed once more it counts. */
  | { readonly kind: 'odd-lock'; readonly typed: string }
  /** What was to be proven dead is not: why is asked for before it is measured again. */
  | {
      readonly kind: 'live-reason'
      readonly input: Extract<Input, { readonly kind: 'reading' }>
      readonly typed: string
    }

/** What lies on the desk and is in no record yet. It may be lost at any moment: then it is asked for again. */
export interface Desk {
  /** The visit that the ticks belong to; they are void in any other state. */
  readonly state: StateId
  readonly acknowledged: readonly string[]
  readonly boxes: readonly string[]
  /** How the last thing was confirmed: neither key nor word confirms the next thing too. */
  readonly last: Confirmation | null
  readonly question: Question | null
  /** Unit to the instrument in use for it; it stays in hand from step to step. */
  readonly instruments: Readonly<Record<string, string>>
  /** The reading for which nobody would name an instrument; null: none. */
  readonly withoutInstrument: string | null
  /** The run was taken up after a crash and nobody has looked at the locks since. */
  readonly takenUp: boolean
}

export function isClosing(event: RunEvent): event is ClosingEvent {
  return event.kind === 'finished' || event.kind === 'stopped'
}

/** Typed to close a run without a signature. */
export const unsignedWord = 'unsigned'

/** Nothing ticked yet in this state. */
export function clearDesk(state: StateId, before: Pick<Desk, 'last' | 'instruments'> | null = null): Desk {
  return {
    state,
    acknowledged: [],
    boxes: [],
    last: before?.last ?? null,
    question: null,
    instruments: before?.instruments ?? {},
    withoutInstrument: null,
    takenUp: false
  }
}
