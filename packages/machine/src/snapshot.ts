import type { AxisId, AxisValueId, PointId, RestraintId, SourceId } from '@lockwright/language'
import type { LockId, PermitId, PersonId, StateId } from './ids.js'

/** The ledger of energies as plain JSON, in the words of the ledger page. */
export interface Ledger {
  readonly points: Readonly<Record<PointId, 'on' | 'off' | 'locked'>>
  readonly restraints: Readonly<Record<RestraintId, 'off' | 'on'>>
  /** Storing kinds only. */
  readonly stores: Readonly<Record<SourceId, 'held' | 'gone'>>
  readonly proofs: Readonly<Record<SourceId, boolean>>
  readonly axes: Readonly<Record<AxisId, AxisValueId | 'unknown'>>
  readonly stopped: boolean
  readonly told: boolean
  readonly tried: boolean
  readonly inspected: boolean
  readonly clear: boolean
  readonly touched: readonly SourceId[]
  readonly permits: readonly PermitId[]
}

/** What follows from the ledger for one source; `present` false: not on this generation. */
export interface SourceStatus {
  readonly source: SourceId
  readonly present: boolean
  readonly isolated: boolean
  readonly restrained: boolean
  readonly still: boolean
  readonly dead: boolean
  readonly proven: boolean
  readonly store: 'none' | 'held' | 'gone'
}

export interface CrewLock {
  readonly person: PersonId
  readonly point: PointId
  readonly lock: LockId
}

export interface Reading {
  readonly value: number
  readonly typed: string
  readonly inside: boolean
}

/** What was already answered in the state where the run stands. */
export interface Progress {
  readonly readings: Readonly<Record<string, Reading>>
  /** Input id of a wait to its start, RFC 3339; `over` once it was waited out. */
  readonly waits: Readonly<Record<string, { readonly startedAt: string; readonly over: boolean }>>
  /** Points whose own lock came off in this unlock state. */
  readonly unlocked: readonly PointId[]
}

/** Where a run stands: all of it, as plain JSON. */
export interface Snapshot {
  readonly state: StateId
  readonly ledger: Ledger
  readonly progress: Progress
  /** Locks hung, each by its owner. */
  readonly locks: readonly CrewLock[]
  /** Who works under the lockout now. */
  readonly crew: readonly PersonId[]
  /** Open `within` clocks: timer state to its deadline, RFC 3339. */
  readonly deadlines: Readonly<Record<StateId, string>>
  /** Sources to be proven again before anything goes on. */
  readonly recheck: readonly SourceId[]
  readonly status: 'new' | 'running' | 'paused' | 'stopped' | 'finished'
  /** Time of the last event, RFC 3339. */
  readonly at: string
}

/** Why an event was not taken: the run stands where it stood. */
export interface Refusal {
  /** `gate`: an obligation's need is not met; the rest: the answer does not fit. */
  readonly kind: 'gate' | 'not-asked' | 'incomplete' | 'too-early' | 'out-of-limits' | 'crew' | 'closed' | 'recheck'
  /** For a gate: the obligation. */
  readonly obligation: string | null
  readonly why: string
  readonly mend: string
}

export type Advanced =
  | { readonly ok: true; readonly snapshot: Snapshot }
  | { readonly ok: false; readonly refusals: readonly [Refusal, ...Refusal[]] }
