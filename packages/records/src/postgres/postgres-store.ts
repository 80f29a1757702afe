import type { PersonId } from '@lockwright/machine'
import type { RunId } from '../entry.js'
import { runId } from '../entry-shape.js'
import { tileWidth } from '../log/tiles.js'
import { partsOf } from '../store/document-path.js'
import { judgeCheckpoint } from '../store/judge-checkpoint.js'
import type { Store, StoredRun } from '../store/store.js'
import { StoreFailure } from '../store/store-failure.js'
import { journalPath } from '../store/stored-run.js'
import { appendEntries, insertCheckpoint, keepDocument, sequenceLeaf, supersedeSigned } from './additions.js'
import { fromColumn } from './column-text.js'
import { type Connection, connectTo, type Row } from './connection.js'
import {
  checkpointStatement,
  documentStatement,
  documentsStatement,
  headsStatement,
  journalStatement,
  leafCountStatement,
  leafHashesStatement,
  leavesStatement,
  listStatement,
  nodesStatement,
  type Statement,
  sheetsOutStatement,
  signedStatement
} from './list-queries.js'
import { compareMigrations, readMigrations } from './migrations.js'

/**
 * The records of several sites or benches in one PostgreSQL. `url` names a login that is a member of `lockwright_runner`
 * or `lockwright_auditor`. Rejects with `StoreFailure` where it cannot be reached or was not made by `migrate`.
 */
export async function postgresStore(url: string): Promise<Store> {
  const connection = await connectTo(url)
  try {
    await refuseStrangers(connection)
  } catch (error) {
    await connection.close()
    throw error
  }
  const rows = ({ text, values }: Statement): Promise<readonly Row[]> => connection.query(text, values)
  const store: Store = {
    name: connection.name,
    runs: async (which = {}) => ({ runs: (await rows(listStatement(which))).map(runOf), faults: [] }),
    runIds: async () =>
      (await connection.query('SELECT run FROM lockwright.runs ORDER BY run')).map(({ run }) => String(run)),
    journal: async (run) => {
      if (runId(run) !== null) return null
      const lines = await rows(journalStatement(run))
      return lines.length === 0 ? null : Buffer.concat(lines.flatMap(({ line }) => [line as Uint8Array, lineEnd]))
    },
    heads: async (runs) => {
      const found = await rows(headsStatement(runs.filter((run) => runId(run) === null)))
      return new Map(
        found.map(({ run, entries, head }) => [String(run), { entries: Number(entries), hash: String(head) }])
      )
    },
    append: (run, from, lines) => appendEntries(connection, run, from, lines),
    documents: async (folder) =>
      (await rows(documentsStatement(folder))).map(({ path, sha256 }) => ({
        path: String(path),
        sha256: String(sha256)
      })),
    document: async (path) => (partsOf(path) === null ? null : bytesOf(await rows(documentStatement(path)), 'content')),
    keep: (path, bytes) => keepDocument(connection, path, bytes),
    sheetsOut: async () => (await rows(sheetsOutStatement)).map(({ path }) => String(path)),
    signed: async (name) => bytesOf(await rows(signedStatement(name)), 'content'),
    supersede: (name, bytes) => supersedeSigned(connection, name, bytes),
    leafCount: async () => Number((await rows(leafCountStatement))[0]?.['leaves']),
    leaves: async (from = 0, most = Number.MAX_SAFE_INTEGER) =>
      (await rows(leavesStatement(from, most))).map(({ line }) => Buffer.from(line as Uint8Array).toString('utf8')),
    addLeaf: (line) => sequenceLeaf(connection, line),
    leafHashes: async (runs) => {
      const found = await rows(leafHashesStatement(runs.filter((run) => runId(run) === null)))
      return new Map(found.map(({ run, hash }) => [String(run), String(hash)]))
    },
    tile: async ({ level, index, width }) => {
      const found = await rows(nodesStatement(level * 8, index * tileWidth, width))
      return found.length < width || width < 1 ? null : Buffer.concat(found.map(({ hash }) => hash as Uint8Array))
    },
    checkpoint: async () => {
      const note = bytesOf(await rows(checkpointStatement), 'note')
      return note === null ? null : Buffer.from(note).toString('utf8')
    },
    keepCheckpoint: async (note) => {
      const judged = await judgeCheckpoint(store, note)
      return judged.kind === 'keep' ? await insertCheckpoint(connection, judged.size, note) : judged
    },
    close: () => connection.close()
  }
  return store
}

const lineEnd = Buffer.from('\n')

function bytesOf(rows: readonly Row[], column: string): Uint8Array | null {
  const [row] = rows
  return row === undefined ? null : (row[column] as Uint8Array)
}

function runOf(row: Row): StoredRun {
  const locks = (row['locks'] ?? []) as readonly (readonly [string, string, string, string])[]
  return {
    run: String(row['run']) as RunId,
    file: journalPath(String(row['run'])),
    mode: String(row['mode']) as StoredRun['mode'],
    onPaper: row['on_paper'] === true,
    sheet: row['sheet'] === null ? null : fromColumn(row['sheet']),
    machine: String(row['machine']),
    procedure: fromColumn(row['procedure']),
    revision: Number(row['revision']),
    equipment: fromColumn(row['equipment']),
    openedAt: String(row['opened_at']),
    openedBy: fromColumn(row['opened_by']) as PersonId,
    lastAt: String(row['last_at']),
    entries: Number(row['entries']),
    status: String(row['status']) as StoredRun['status'],
    head: String(row['head']),
    locks: locks.map(([point, lock, person, since]) => ({
      point: fromColumn(point),
      lock: fromColumn(lock),
      person: fromColumn(person),
      since
    }))
  }
}

/** Nothing is read from or written to a database whose triggers and grants are not known to be ours. */
async function refuseStrangers(connection: Connection): Promise<void> {
  const applied = await connection.query('SELECT number, name, sha256 FROM lockwright.migrations ORDER BY number')
  const state = compareMigrations(readMigrations(), applied)
  if (state.kind === 'current') return
  if (state.kind === 'refused') throw new StoreFailure(state.fault)
  throw new StoreFailure({
    id: 'store-behind',
    file: connection.name,
    what: `The shared store lacks ${state.missing.map(({ name }) => name).join(', ')}.`,
    danger: 'It may lack what keeps its records from being changed.',
    mend: 'Have its owner run `lockwright store migrate`.'
  })
}
