import type { AxisId, PointId, RestraintId, SourceId } from '@lockwright/language'
import type { PermitId } from './ids.js'

/**
 * What a step may ask of the ledger, as data: a machine read from a file holds no functions.
 * The words are those of the ledger page: isolated, cut, still, dead, proven.
 */
export type Condition =
  | { readonly is: 'stopped' | 'told' | 'tried' | 'inspected' | 'clear' }
  | { readonly is: 'isolated' | 'cut' | 'still' | 'dead' | 'proven'; readonly source: SourceId }
  | { readonly is: 'locked' | 'off' | 'not-locked'; readonly point: PointId }
  /** Some point of the machine is locked. */
  | { readonly is: 'some-point-locked' }
  /** Every point that feeds a source that the restraint holds is locked. */
  | { readonly is: 'feeds-locked'; readonly restraint: RestraintId }
  /** No restraint is on that holds a source which the point feeds; those with `needs-power` excepted. */
  | { readonly is: 'unrestrained'; readonly point: PointId }
  | { readonly is: 'known'; readonly axis: AxisId }
  | { readonly is: 'given'; readonly permit: PermitId }
  /** The point stands at its normal position. */
  | { readonly is: 'normal'; readonly point: PointId }
  | { readonly is: 'restraint-off'; readonly restraint: RestraintId }
  /** Every source touched since the last inspection is still. */
  | { readonly is: 'touched-still' }
  /** What does not depend on the ledger; `fault` says what is missing in the text. */
  | { readonly is: 'declared'; readonly holds: boolean; readonly fault: string }
  | { readonly is: 'all' | 'any'; readonly of: readonly Condition[] }

/** A source, a point or a restraint: what may exist on some generations alone. */
export type Thing =
  | { readonly kind: 'source'; readonly id: SourceId }
  | { readonly kind: 'point'; readonly id: PointId }
  | { readonly kind: 'restraint'; readonly id: RestraintId }

/** What a need is about, for the words of a message. */
export type About = { readonly kind: 'machine' } | Thing | { readonly kind: 'axis'; readonly id: AxisId }

/** The rungs are tried in order; the first one that is not met fails, with its obligation. */
export interface Need {
  readonly about: About
  /** The need is left out where any of these is absent on this generation. */
  readonly present: readonly Thing[]
  readonly rungs: readonly Rung[]
}

export interface Rung {
  readonly obligation: string
  readonly condition: Condition
}

/** What a step does to the ledger. An effect on what is absent on this generation is left out. */
export type Effect =
  | { readonly does: 'set'; readonly flag: 'stopped' | 'told' | 'tried' | 'inspected' | 'clear'; readonly to: boolean }
  | { readonly does: 'move'; readonly point: PointId; readonly to: 'on' | 'off' | 'locked' }
  | { readonly does: 'put'; readonly restraint: RestraintId; readonly to: 'on' | 'off' }
  | { readonly does: 'let-out'; readonly source: SourceId }
  | { readonly does: 'verify'; readonly source: SourceId }
  /** Taking the restraint off ends the proof of a source that rebuilds. */
  | { readonly does: 'unverify'; readonly source: SourceId; readonly freedBy: RestraintId }
  /** Left out where the restraint that is handled is absent. */
  | { readonly does: 'touch'; readonly sources: readonly SourceId[]; readonly handling: RestraintId | null }
  /** Nothing counts as touched any more. */
  | { readonly does: 'untouch' }
  | { readonly does: 'permit'; readonly permit: PermitId }
  | { readonly does: 'end-permits' }
  /** What nothing feeds may hold energy again: store held, proof gone. */
  | { readonly does: 'rewind-unfed' }
  /** The axis takes the value that was identified. */
  | { readonly does: 'know'; readonly axis: AxisId }

/** Needs are all looked at first, then all effects take place, then the ledger settles. */
export interface Turn {
  readonly needs: readonly Need[]
  readonly does: readonly Effect[]
}
