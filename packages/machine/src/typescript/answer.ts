import type { AbsentOwner, Event } from '../event.js'
import type { PersonId } from '../ids.js'

/** The words of every answer that ends a state: which notices were acknowledged and which boxes ticked. */
interface Ended<Notice extends string, Box extends string> {
  readonly acknowledged: readonly Notice[]
  readonly boxes: readonly Box[]
}

/** The step is done. */
export interface Done<State extends string, Notice extends string, Box extends string> extends Ended<Notice, Box> {
  readonly kind: 'done'
  readonly state: State
}

/** One of the answers that the state offers. */
export interface Choice<State extends string, Offered extends string, Notice extends string, Box extends string>
  extends Ended<Notice, Box> {
  readonly kind: 'choice'
  readonly state: State
  readonly answer: Offered
}

/** A value in the unit of the input; `typed` as it was entered. */
export interface ReadingTaken<State extends string, Input extends string> {
  readonly kind: 'reading'
  readonly state: State
  readonly input: Input
  readonly value: number
  readonly typed: string
  readonly instrument?: string
}

/** A timed wait begins, or was waited out. */
export interface Waited<State extends string, Input extends string> {
  readonly kind: 'wait-started' | 'wait-over'
  readonly state: State
  readonly input: Input
}

/** An own lock goes on a point. */
export interface LockHung<State extends string, Point extends string> {
  readonly kind: 'lock-hung'
  readonly state: State
  readonly point: Point
  readonly lock: string
}

/** A lock comes off a point. */
export interface LockRemoved<State extends string, Point extends string> {
  readonly kind: 'lock-removed'
  readonly state: State
  readonly point: Point
  readonly owner: PersonId
  readonly absent?: AbsentOwner
}

/** A signature by a role, for one meaning. */
export interface Signed<
  State extends string,
  Role extends string,
  Meaning extends string,
  Notice extends string,
  Box extends string
> extends Ended<Notice, Box> {
  readonly kind: 'signed'
  readonly state: State
  readonly role: Role
  readonly meaning: Meaning
}

/** The time that the step was given ran out. */
export interface Late<State extends string> {
  readonly kind: 'late'
  readonly state: State
}

/** The step was done differently, with a reason. */
export interface Deviation<State extends string, Role extends string> {
  readonly kind: 'deviation'
  readonly state: State
  readonly reason: string
  readonly role: Role
}

/** The equipment is returned to service. */
export interface Finished<State extends string, Notice extends string, Box extends string> extends Ended<Notice, Box> {
  readonly kind: 'finished'
  readonly state: State
}

/** What may happen in any state. */
export type AnyTime = Extract<
  Event,
  {
    readonly kind:
      | 'opened'
      | 'joined'
      | 'left'
      | 'handed-over'
      | 'note'
      | 'attachment'
      | 'paused'
      | 'resumed'
      | 'proven-again'
      | 'stopped'
  }
>
