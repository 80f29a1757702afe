import type { RunSummary } from '../run-types.js'
import type { AuditScope } from './report.js'
import type { StoreLog } from './store-log.js'
import { count } from './verdict.js'

export interface Filters {
  readonly since?: string
  readonly equipment?: string
  readonly person?: string
}

/** Chooses among runs and counts what it left out. A run of which nothing can be read is never left out. */
export interface RunFilter {
  leavesOut(summary: RunSummary | null, people: () => readonly string[]): boolean
  asked(covered: number, log: StoreLog): AuditScope
}

export function filterOf({ since, equipment, person }: Filters): RunFilter {
  const left = { since: 0, equipment: 0, person: 0 }
  const from = since === undefined ? Number.NEGATIVE_INFINITY : Date.parse(since)
  return {
    leavesOut: (summary, people) => {
      if (summary === null) return false
      const why =
        Date.parse(summary.lastAt) < from
          ? 'since'
          : equipment !== undefined && summary.equipment !== equipment
            ? 'equipment'
            : person !== undefined && !people().includes(person)
              ? 'person'
              : null
      if (why !== null) left[why] += 1
      return why !== null
    },
    asked: (covered, { size, kept }) => ({
      since: since ?? null,
      equipment: equipment ?? null,
      person: person ?? null,
      leftOut: [
        { why: `ended before ${since}`, runs: left.since },
        { why: `are of other equipment than ${equipment}`, runs: left.equipment },
        { why: `do not have ${person} in them`, runs: left.person }
      ].filter(({ runs }) => runs > 0),
      covered:
        covered === 0
          ? null
          : {
              runs: covered,
              checkpoint: `a checkpoint that the log of ${count(size, 'leaf', 'leaves')} begins with`,
              kept: kept?.at ?? null
            }
    })
  }
}
