import type { PointId, RoleId, SourceId } from '@lockwright/language'
import type { LockId, PersonId, StateId } from './ids.js'

/** When and by whom: `at` is RFC 3339 in UTC; time comes only from here. */
export interface Stamp {
  readonly at: string
  readonly by: PersonId
}

/** One lock on one point. */
export interface HungLock {
  readonly point: PointId
  readonly lock: LockId
}

/** What a state's last answer brings along: every notice acknowledged, every box ticked, by id. */
export interface Ticks {
  readonly acknowledged: readonly string[]
  readonly boxes: readonly string[]
}

/** 29 CFR 1910.147(e)(3): the three conditions under which someone else's lock may come off. */
export interface AbsentOwner {
  readonly verifiedAway: string
  readonly triedToReach: string
  readonly toldBeforeReturn: string
  /** Who directed the removal for the employer; absent: whoever took it off. */
  readonly directedBy?: PersonId
}

/** Everything that can happen in a run. `state` says where it was answered and must be the state the run is in. */
export type Event = Stamp &
  (
    | {
        readonly kind: 'opened'
        readonly mode: 'issued' | 'draft' | 'rehearsal'
        /** `sheet`: serial number of the printed sheet, where it had one. */
        readonly onPaper?: { readonly enteredBy: PersonId; readonly sheet?: string }
      }
    /** Leaves the state by its `done`, or for a measure by `inside`. */
    | ({ readonly kind: 'done'; readonly state: StateId } & Ticks)
    /** `value` in the unit of the input; `typed` as it was entered. */
    | {
        readonly kind: 'reading'
        readonly state: StateId
        readonly input: string
        readonly value: number
        readonly typed: string
        readonly instrument?: string
      }
    /** ask: an answer id; identify: an axis value; measure: `outside` once the last reading lies outside. */
    | ({ readonly kind: 'choice'; readonly state: StateId; readonly answer: string } & Ticks)
    | { readonly kind: 'wait-started'; readonly state: StateId; readonly input: string }
    | { readonly kind: 'wait-over'; readonly state: StateId; readonly input: string }
    | { readonly kind: 'lock-hung'; readonly state: StateId; readonly point: PointId; readonly lock: LockId }
    | {
        readonly kind: 'lock-removed'
        readonly state: StateId
        readonly point: PointId
        readonly owner: PersonId
        readonly absent?: AbsentOwner
        /** A lock that an earlier run left on; absent: one that this run hung. */
        readonly from?: { readonly run: string; readonly lock: LockId }
      }
    | ({ readonly kind: 'signed'; readonly state: StateId; readonly role: RoleId; readonly meaning: string } & Ticks)
    /** The time of a `within` block ran out with this step not done. */
    | { readonly kind: 'late'; readonly state: StateId }
    | { readonly kind: 'joined'; readonly locks: readonly HungLock[] }
    | { readonly kind: 'left' }
    /** `by` goes, `to` takes over; the incoming locks are on before the outgoing come off. */
    | { readonly kind: 'handed-over'; readonly to: PersonId; readonly locks: readonly HungLock[] }
    | { readonly kind: 'note'; readonly text: string }
    | { readonly kind: 'attachment'; readonly name: string; readonly sha256: string }
    /** Done differently, with a reason and a qualified signature; not for gates. */
    | { readonly kind: 'deviation'; readonly state: StateId; readonly reason: string; readonly role: RoleId }
    | { readonly kind: 'paused'; readonly reason: string }
    /** `locksOn`: every own lock was looked at and hangs. */
    | { readonly kind: 'resumed'; readonly locksOn: boolean }
    /** A source verified again after a break. */
    | {
        readonly kind: 'proven-again'
        readonly source: SourceId
        readonly value: number | null
        readonly typed: string
        readonly instrument?: string
      }
    /** At a stop state, or by hand anywhere. `left` says in what condition it was left where a need of stop does not hold. */
    | { readonly kind: 'stopped'; readonly reason: string; readonly left?: string }
    | ({ readonly kind: 'finished'; readonly state: StateId } & Ticks)
  )

export type EventKind = Event['kind']
