import type { Span } from '@lockwright/machine'

/** `tightening`: more is asked than before; `loosening`: less; `neutral`: neither, or it cannot be told. */
export type Tendency = 'tightening' | 'loosening' | 'neutral'

/** What a change is about. */
export type Topic =
  | 'procedure'
  | 'hardware'
  | 'source'
  | 'point'
  | 'restraint'
  | 'role'
  | 'equipment'
  | 'left-on'
  | 'waiver'
  | 'step'
  | 'way'
  | 'obligation'

/** One change in meaning. Places are in the source of either revision; null where it holds nothing of the sort. */
export interface Change {
  readonly tendency: Tendency
  readonly topic: Topic
  /** What changed, as one sentence. */
  readonly what: string
  /** Why it is marked so, as one sentence. */
  readonly why: string
  readonly old: Span | null
  readonly next: Span | null
  /** For a way: the steps of the shortest one, of the revision that holds it. Else empty. */
  readonly way: readonly { readonly line: number; readonly title: string }[]
}

export interface Comparison {
  readonly old: { readonly procedure: string; readonly revision: number }
  readonly next: { readonly procedure: string; readonly revision: number }
  /** Loosening first, then tightening, then neutral; within each by line. */
  readonly changes: readonly Change[]
}

/** Whether the next revision asks less than the old one anywhere. */
export function loosens({ changes }: Comparison): boolean {
  return changes.some(({ tendency }) => tendency === 'loosening')
}
