import type { Place } from './place.js'

/** A list that is never empty: a failure always says why. */
export type NonEmpty<Item> = readonly [Item, ...Item[]]

/** `error` refuses the file; `warning` and `advice` do not. No configuration can lower an error. */
export type Severity = 'error' | 'warning' | 'advice'

/** One numbered line of the way that leads to a failed obligation. */
export interface PathStep {
  /** Line of the step in the source file. */
  readonly line: number
  readonly title: string
  /** The energy ledger once the step was done, in plain words. */
  readonly ledger: string
}

/** Another place that has to do with the fault. */
export interface Related {
  readonly place: Place
  readonly note: string
}

/**
 * What a person reads when a file does not compile. The four sentences are kept apart so that
 * every output (text, JSON, an editor) can set them as it likes; only `mend` gives advice.
 */
export interface Diagnostic {
  /** Kebab-case; an obligation's diagnostic bears the obligation's id. */
  readonly id: string
  readonly severity: Severity
  /** The smallest stretch of source that has to change. */
  readonly place: Place
  readonly what: string
  readonly danger: string
  readonly mend: string
  readonly related: readonly Related[]
  /** For an explored obligation: the shortest way from the start to the failure. Else empty. */
  readonly path: readonly PathStep[]
}

/** Input can be wrong: then all faults come back at once, ordered by place. */
export type Result<Value> =
  | { readonly ok: true; readonly value: Value; readonly warnings: readonly Diagnostic[] }
  | { readonly ok: false; readonly diagnostics: NonEmpty<Diagnostic> }
