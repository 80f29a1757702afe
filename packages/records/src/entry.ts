import type { Event, PersonId, StateId } from '@lockwright/machine'

/** File name of a journal without its ending: lower-case letters, digits and `-`. */
export type RunId = string & { readonly __run: unique symbol }

type Unstamped<Any> = Any extends unknown ? Omit<Any, 'at' | 'by'> : never

/** An event without its stamp: when and by whom stands in the entry around it. */
export type BareEvent = Unstamped<Event>

/** Stands in the first entry alone: which format, and what is stepped. */
export interface Opening {
  readonly format: 'lockwright-journal/1'
  /** SHA-256 of the machine's canonical bytes, 64 hex digits; also the first entry's `prev`. */
  readonly machine: string
  readonly procedure: string
  readonly revision: number
  /** Tag of the equipment. */
  readonly equipment: string
}

/** What 21 CFR 11.50 wants to see with a signature. */
export interface SignatureNote {
  readonly by: PersonId
  /** Printed name, as the roster had it. */
  readonly name: string
  /** RFC 3339. */
  readonly at: string
  readonly meaning: string
}

/** One line of a journal; see FORMAT.md. */
export interface Entry {
  readonly run: RunId
  /** From 1, without gaps: the number of its line. */
  readonly seq: number
  /** SHA-256 of the line before, in 64 hex digits; of the first: the machine's digest. */
  readonly prev: string
  /** When it happened, RFC 3339 in UTC. */
  readonly at: string
  /** Milliseconds since the run was opened, by a clock that never runs back. */
  readonly elapsed: number
  /** How many times the run was taken up: 1 until the first interruption. See `session-clock.ts` for what bridges a change. */
  readonly session: number
  readonly by: PersonId
  /** Where the run stood when it happened. */
  readonly state: StateId
  readonly event: BareEvent
  readonly opens?: Opening
  /** A run entered from paper: who typed this entry, and when; `at` is then what the sheet says. */
  readonly entered?: { readonly at: string; readonly by: PersonId }
  readonly signature?: SignatureNote
  /** Compact JWS with detached content (RFC 7515, appendix F) over this entry's canonical bytes without `jws`. */
  readonly jws?: string
}

/** The event as `advance` takes it. */
export function eventOf(entry: Entry): Event {
  return { ...entry.event, at: entry.at, by: entry.by } as Event
}
