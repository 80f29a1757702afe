import type { Machine } from '@lockwright/machine'
import { prove } from '../prove.js'
import type { ProofReport } from '../verdict.js'
import type { Change, Comparison, Tendency } from './comparison.js'
import { declaredEntries } from './declared-entries.js'
import { compareEntries, type Entry } from './entry.js'
import { headEntries } from './head-entries.js'
import { obligationChanges } from './obligation-changes.js'
import { type Reading, sharedNames } from './shared-names.js'
import { messageEntries, stepEntries } from './step-entries.js'
import { wayChanges } from './way-changes.js'

/** Proofs of the two revisions, where they were made already; else they are made here. */
export interface CompareOptions {
  readonly reports?: { readonly old: ProofReport; readonly next: ProofReport }
}

/**
 * What changed in meaning between two revisions of a procedure. Steps, things and safety messages are known again by
 * their id, else by what they do, so a move, a new name or a new wording is no change; a move shows only where a way now
 * leads past a gate. Exchanging the two exchanges tightening and loosening.
 */
export function compare(old: Machine, next: Machine, { reports }: CompareOptions = {}): Comparison {
  const names = sharedNames(old, next)
  const before: Reading = { machine: old, name: names.old, value: names.oldValue, values: names.values }
  const now: Reading = { machine: next, name: names.next, value: names.nextValue, values: names.values }
  const steps = compareEntries(stepEntries(before), stepEntries(now))
  const changes = [
    ...[headEntries, declaredEntries, messageEntries].flatMap(
      (entries) => compareEntries<Entry>(entries(before), entries(now)).changes
    ),
    ...steps.changes,
    ...wayChanges(before, now, steps.pairs),
    ...obligationChanges(reports?.old ?? prove(old).report, reports?.next ?? prove(next).report)
  ]
  return {
    old: { procedure: old.procedure, revision: old.revision },
    next: { procedure: next.procedure, revision: next.revision },
    changes: changes.sort(inOrder)
  }
}

const order: Readonly<Record<Tendency, number>> = { loosening: 0, tightening: 1, neutral: 2 }

/** By tendency, then by place, whole-file changes last; then by words, so that the order never depends on chance. */
function inOrder(one: Change, other: Change): number {
  return (
    order[one.tendency] - order[other.tendency] ||
    lineOf(one) - lineOf(other) ||
    (one.what < other.what ? -1 : one.what > other.what ? 1 : 0)
  )
}

function lineOf({ old, next }: Change): number {
  return (next ?? old)?.line ?? Number.MAX_SAFE_INTEGER
}
