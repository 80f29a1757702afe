import type { WhichRuns } from '../store/store.js'
import { toColumn } from './column-text.js'

/** A statement and its values. */
export interface Statement {
  readonly text: string
  readonly values: readonly unknown[]
}

/** Runs that fit, in the order of a list. Each condition has an index; a test looks at the plans. */
export function listStatement(which: WhichRuns): Statement {
  const values: unknown[] = []
  const put = (value: unknown): string => `$${values.push(value)}`
  const conditions = [
    ...(which.open === undefined ? [] : [`status ${which.open ? 'IN' : 'NOT IN'} ('running', 'paused')`]),
    ...(which.hanging === undefined ? [] : ['run IN (SELECT run FROM lockwright.hung_locks)']),
    ...(which.since === undefined ? [] : [`last_ms >= ${put(Math.ceil(Date.parse(which.since)))}`]),
    ...(which.equipment === undefined ? [] : [`equipment_key = lockwright_key(${put(toColumn(which.equipment))})`]),
    ...(which.procedure === undefined ? [] : [`procedure_key = lockwright_key(${put(toColumn(which.procedure))})`]),
    ...(which.person === undefined
      ? []
      : [
          `run IN (SELECT run FROM lockwright.run_people WHERE person_key = lockwright_key(${put(toColumn(which.person))}))`
        ])
  ].map((condition) => condition.replace(/lockwright_key\((\$\d+)\)/, "sha256(convert_to($1, 'UTF8'))"))
  const where = conditions.length === 0 ? '' : `WHERE ${conditions.join(' AND ')}`
  return {
    text: `SELECT run, mode, on_paper, sheet, machine, procedure, revision, equipment, opened_at, opened_by, last_at, entries,
  encode(head, 'hex') AS head, status,
  (SELECT json_agg(json_build_array(point, lock, person, since) ORDER BY place)
    FROM lockwright.hung_locks WHERE hung_locks.run = runs.run) AS locks
FROM lockwright.runs ${where} ORDER BY opened_ms DESC, run`,
    values
  }
}

export const journalStatement = (run: string): Statement => ({
  text: 'SELECT line FROM lockwright.entries WHERE run = $1 ORDER BY seq',
  values: [run]
})

export const headsStatement = (runs: readonly string[]): Statement => ({
  text: "SELECT run, entries, encode(head, 'hex') AS head FROM lockwright.runs WHERE run = ANY($1)",
  values: [runs]
})

export const documentsStatement = (folder: string): Statement => ({
  // From `folder/` to the character after `/`, so that the index on the paths serves.
  text: "SELECT path, encode(sha256, 'hex') AS sha256 FROM lockwright.documents WHERE path >= $1 AND path < $2 ORDER BY path",
  values: [`${folder}/`, `${folder}0`]
})

export const documentStatement = (path: string): Statement => ({
  text: 'SELECT content FROM lockwright.documents WHERE path = $1',
  values: [path]
})

export const signedStatement = (name: string): Statement => ({
  text: 'SELECT content, serial FROM lockwright.signed WHERE name = $1 ORDER BY serial DESC LIMIT 1',
  values: [name]
})

export const leavesStatement = (from: number, most: number): Statement => ({
  text: 'SELECT line FROM lockwright.leaves WHERE index >= $1 AND index < $2 ORDER BY index',
  values: [from, Math.min(from + most, Number.MAX_SAFE_INTEGER)]
})

export const leafCountStatement: Statement = {
  text: 'SELECT coalesce(max(index) + 1, 0) AS leaves FROM lockwright.leaves',
  values: []
}

export const nodesStatement = (level: number, from: number, amount: number): Statement => ({
  text: 'SELECT hash FROM lockwright.nodes WHERE level = $1 AND index >= $2 AND index < $3 ORDER BY index',
  values: [level, from, from + amount]
})

export const checkpointStatement: Statement = {
  text: 'SELECT note FROM lockwright.checkpoints ORDER BY size DESC LIMIT 1',
  values: []
}

export const leafHashesStatement = (runs: readonly string[]): Statement => ({
  text: "SELECT run, encode(sha256(line), 'hex') AS hash FROM lockwright.leaves WHERE run = ANY($1)",
  values: [runs]
})

export const sheetsOutStatement: Statement = {
  text: 'SELECT path FROM lockwright.sheets_out ORDER BY path',
  values: []
}
