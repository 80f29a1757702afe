import { bad, good, type RecordsResult } from '../result.js'
import { type Connection, connectTo, type Query } from './connection.js'
import { compareMigrations, type Migration, readMigrations } from './migrations.js'

/** What was done: the steps that were applied now; none where the database was up to date. */
export interface Migrated {
  /** The address without its password. */
  readonly name: string
  readonly applied: readonly string[]
}

/**
 * Makes the database of a shared store, or brings it up to date; as its owner. All of it or nothing, and of two at once
 * the second finds it done. Rejects with `StoreFailure`.
 */
export async function migrate(
  url: string,
  migrations: readonly Migration[] = readMigrations()
): Promise<RecordsResult<Migrated>> {
  const connection = await connectTo(url)
  try {
    return await connection.transaction(async (query) => {
      await query('SELECT pg_advisory_xact_lock(20260302, 1)')
      const encoding = await query('SHOW server_encoding')
      if (encoding[0]?.['server_encoding'] !== 'UTF8') return notUtf8(connection)
      const state = compareMigrations(migrations, await appliedIn(query))
      if (state.kind === 'refused') return { ok: false, faults: [state.fault] }
      const missing = state.kind === 'behind' ? state.missing : []
      for (const one of missing) {
        await query(one.sql)
        await query('INSERT INTO lockwright.migrations (number, name, sha256) VALUES ($1, $2, $3)', [
          one.number,
          one.name,
          one.sha256
        ])
      }
      return good({ name: connection.name, applied: missing.map(({ name }) => name) })
    })
  } finally {
    await connection.close()
  }
}

async function appliedIn(query: Query) {
  await query('CREATE SCHEMA IF NOT EXISTS lockwright')
  await query(`CREATE TABLE IF NOT EXISTS lockwright.migrations (
    number integer PRIMARY KEY,
    name text NOT NULL,
    sha256 text NOT NULL,
    applied_at timestamptz NOT NULL DEFAULT now()
  )`)
  return await query('SELECT number, name, sha256 FROM lockwright.migrations ORDER BY number')
}

function notUtf8({ name }: Connection): RecordsResult<never> {
  return bad({
    id: 'not-utf8',
    file: name,
    what: 'The database does not keep its texts in UTF-8.',
    danger: 'Names and notes in some languages could not be found or shown.',
    mend: "Make one with: CREATE DATABASE ... ENCODING 'UTF8' TEMPLATE template0"
  })
}
