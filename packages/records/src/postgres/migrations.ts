import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { sha256Hex } from '../digest.js'
import type { RecordsFault } from '../result.js'
import type { Row } from './connection.js'

/** One numbered step in the making of the database. */
export interface Migration {
  readonly number: number
  /** `0001-records.sql` */
  readonly name: string
  readonly sql: string
  readonly sha256: string
}

// Beside the sources and beside what was compiled of them alike.
const folder = new URL('../../src/postgres/migrations/', import.meta.url)

/** In their order; numbered from 1 without gaps. */
export function readMigrations(): readonly Migration[] {
  return readdirSync(fileURLToPath(folder))
    .filter((name) => /^\d{4}-[a-z0-9-]+\.sql$/.test(name))
    .toSorted()
    .map((name) => {
      const sql = readFileSync(new URL(name, folder), 'utf8')
      return { number: Number(name.slice(0, 4)), name, sql, sha256: sha256Hex(sql) }
    })
}

/** What the database says was applied, against what there is. */
export type Applied =
  | { readonly kind: 'current' }
  | { readonly kind: 'behind'; readonly missing: readonly Migration[] }
  | { readonly kind: 'refused'; readonly fault: RecordsFault }

/** `rows`: number, name and sha256 of each that was applied, in their order. */
export function compareMigrations(migrations: readonly Migration[], rows: readonly Row[]): Applied {
  for (const { number, name, sha256 } of rows) {
    const known = migrations.find((one) => one.number === number)
    if (known === undefined) return { kind: 'refused', fault: newer(String(name)) }
    if (known.sha256 !== sha256) return { kind: 'refused', fault: changed(known.name, String(sha256), known.sha256) }
  }
  const missing = migrations.slice(rows.length)
  return missing.length === 0 ? { kind: 'current' } : { kind: 'behind', missing }
}

function newer(name: string): RecordsFault {
  return {
    id: 'store-newer',
    file: name,
    line: null,
    what: 'The shared store was made by a later version of this program.',
    danger: 'What this version writes or reads there could be understood otherwise than it is meant.',
    mend: 'Use a version that knows it.'
  }
}

function changed(name: string, applied: string, here: string): RecordsFault {
  return {
    id: 'migration-changed',
    file: name,
    line: null,
    what: `The step ${name} that made the database is not the one that this program has: applied ${applied}, here ${here} (SHA-256).`,
    danger: 'The database may lack what keeps its records from being changed.',
    mend: 'Use the program as it was released. If the database was made by hand, make a new one and sync into it.'
  }
}
