import type { Outcome, ProofReport } from '../verdict.js'
import type { Change } from './comparison.js'

/** From what is broken to what is kept; an obligation that arises no more asks nothing any more. */
const rank: Readonly<Record<Exclude<Outcome, 'undecided'>, number>> = {
  fails: 0,
  waived: 1,
  'does-not-arise': 2,
  holds: 3
}

const told: Readonly<Record<Outcome, string>> = {
  fails: 'is not kept',
  waived: 'is waived',
  'does-not-arise': 'does not arise',
  holds: 'holds',
  undecided: 'is undecided'
}

/** What came of each obligation in the proofs of the two revisions, where it is not the same. */
export function obligationChanges(old: ProofReport, next: ProofReport): readonly Change[] {
  const before = new Map(old.obligations.map(({ id, outcome }) => [id, outcome]))
  return next.obligations.flatMap(({ id, outcome }): readonly Change[] => {
    const was = before.get(id)
    if (was === undefined || was === outcome) return []
    const what = `\`${id}\` ${told[was]} in the old revision and ${told[outcome]} in the new one.`
    const places = { topic: 'obligation', old: null, next: null, way: [] } as const
    if (was === 'undecided' || outcome === 'undecided') {
      return [{ ...places, what, why: 'One of the proofs was not finished.', tendency: 'neutral' }]
    }
    return [
      rank[outcome] > rank[was]
        ? { ...places, what, why: 'The proof stands for more than before.', tendency: 'tightening' }
        : { ...places, what, why: 'The proof stands for less than before.', tendency: 'loosening' }
    ]
  })
}
