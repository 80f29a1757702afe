import type { RunSummary } from '../run-types.js'
import type { Found } from './verdict.js'

/** Two computers may differ by this much and still agree, in milliseconds. */
const slack = 300_000

/** A record that is dated later than the audit of it; `at`: when the audit is made, RFC 3339. */
export function datedAhead(summary: RunSummary | null, at: string | null): readonly Found[] {
  if (summary === null || at === null || Date.parse(summary.lastAt) <= Date.parse(at) + slack) return []
  return [
    {
      id: 'dated-ahead',
      weight: 'doubt',
      seq: summary.entries,
      what: `The last entry is dated ${summary.lastAt}, which is later than this audit (${at}).`,
      danger: 'One of the two clocks is wrong: how long a lock hangs and what is overdue cannot be told.',
      mend: 'Set the clock of the computer that is wrong. If it was the one that wrote, note it with the run.'
    }
  ]
}
