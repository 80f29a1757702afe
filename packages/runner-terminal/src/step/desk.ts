import type { PersonId, Refusal, StateId } from '@lockwright/machine'
import type { Confirmation } from './confirmation.js'

/** A question that the runner itself asks on the way to an event; an empty line takes it back. */
export type Question =
  | { readonly kind: 'stop-reason' }
  /** A need of `stop` does not hold: `needs` says what must be locked or closed first. */
  | { readonly kind: 'stop-left'; readonly reason: string; readonly needs: readonly Pick<Refusal, 'why' | 'mend'>[] }
  | { readonly kind: 'pause-reason' }
  | { readonly kind: 'note' }
  | { readonly kind: 'passphrase'; readonly person: PersonId }
  /** A reading that hardly can be right: typed once more it counts. */
  | { readonly kind: 'surprise'; readonly typed: string; readonly why: string }

/** What lies on the desk and is in no record yet. It may be lost at any moment: then it is asked for again. */
export interface Desk {
  /** The visit that the ticks belong to; they are void in any other state. */
  readonly state: StateId
  readonly acknowledged: readonly string[]
  readonly boxes: readonly string[]
  /** How the last thing was confirmed: neither key nor word confirms the next thing too. */
  readonly last: Confirmation | null
  readonly question: Question | null
  /** The run was taken up after a crash and nobody has looked at the locks since. */
  readonly takenUp: boolean
}

/** Nothing ticked yet in this state. */
export function clearDesk(state: StateId, last: Confirmation | null = null): Desk {
  return { state, acknowledged: [], boxes: [], last, question: null, takenUp: false }
}
