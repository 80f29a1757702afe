import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type Store, syncSite } from '@lockwright/records'
import { migrate, postgresStore } from '@lockwright/records/postgres'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { writeDurably } from '../../packages/records/src/durable-file.js'
import { completeLog } from '../../packages/records/src/log/complete-log.js'
import { leafHash, nodeHash, splitOf } from '../../packages/records/src/log/tree-hash.js'
import { connectTo, type Query } from '../../packages/records/src/postgres/connection.js'
import { layout, makeFolders } from '../../packages/records/src/site.js'
import {
  fileOf,
  finished,
  newRoot,
  note,
  runOf,
  sampleLines,
  sampleRoster
} from '../../packages/records/src/store/conformance/sample-records.js'
import { rootAt } from '../../packages/records/src/store/judge-checkpoint.js'
import { postgresPrograms, type Server, startServer } from './server.js'

const name =
  postgresPrograms === null ? 'faults (PostgreSQL is not installed here: not tried)' : 'a shared store under stress'

describe.runIf(postgresPrograms !== null)(name, () => {
  let server: Server
  beforeAll(async () => {
    server = await startServer()
    server.create('site')
    await migrate(server.url('site'))
    server.sql('site', 'CREATE ROLE tablet LOGIN IN ROLE lockwright_runner')
  })
  afterAll(() => server.stop())

  const withStores = async (amount: number, body: (stores: readonly Store[]) => Promise<void>): Promise<void> => {
    const stores = await Promise.all(Array.from({ length: amount }, () => postgresStore(server.url('site', 'tablet'))))
    try {
      await body(stores)
    } finally {
      for (const store of stores) await store.close()
    }
  }

  it('gives eight clients that sync at once one log without gaps, and each leaf its journal', async () => {
    const root = newRoot()
    const folder = mkdtempSync(join(tmpdir(), 'lockwright-eight-'))
    try {
      await withStores(8, async (stores) => {
        const sites = stores.map((_, n) => {
          const site = makeFolders(join(folder, String(n)))
          writeDurably(layout.people(site), sampleRoster(root, 3))
          // Twelve runs of its own, and four that every bench has a copy of.
          for (const run of [
            ...Array.from({ length: 12 }, (_, k) => `own-${n}-${k}`),
            'both-0',
            'both-1',
            'both-2',
            'both-3'
          ]) {
            writeDurably(layout.journal(site, run), fileOf(sampleLines({ run, events: [note('x'), finished] })))
          }
          completeLog(site)
          return site
        })
        const reports = await Promise.all(sites.map((site, n) => syncSite(site, stores[n] as Store)))
        for (const report of reports)
          expect(report).toMatchObject({ findings: [], stopped: null, leaves: { refused: 0 } })
        const sum = (of: (report: (typeof reports)[number]) => number) => reports.reduce((all, one) => all + of(one), 0)
        expect(sum(({ leaves }) => leaves.sent)).toBe(8 * 12 + 4)
        const [store] = stores as [Store]
        const leaves = await store.leaves()
        expect(await store.leafCount()).toBe(8 * 12 + 4)
        expect(
          server.sql('site', 'SELECT min(index), max(index), count(DISTINCT index) FROM lockwright.leaves').trim()
        ).toBe('0|99|100')
        expect(new Set(leaves.map((leaf) => (JSON.parse(leaf) as { run: string }).run)).size).toBe(100)
        expect(Buffer.from(await rootAt(store, 100))).toEqual(
          Buffer.from(naiveRoot(leaves.map((leaf) => leafHash(leaf))))
        )
      })
    } finally {
      rmSync(folder, { recursive: true, force: true })
    }
  })

  it('lets one of eight different next lines in, and tells the other seven of the fork', async () => {
    await withStores(8, async (stores) => {
      await stores[0]?.append(runOf('split'), 1, sampleLines({ run: 'split' }))
      const all = await Promise.all(
        stores.map((store, n) =>
          store.append(runOf('split'), 2, sampleLines({ run: 'split', events: [note(`${n}`)] }).slice(1))
        )
      )
      expect(all.map(({ kind }) => kind).toSorted()).toEqual(['appended', ...Array.from({ length: 7 }, () => 'fork')])
    })
  })

  it('has nothing of a call whose connection broke, and goes on with a new one', async () => {
    await withStores(1, async (stores) => {
      const [store] = stores as [Store]
      const lines = sampleLines({ run: 'cable', events: [note('a'), note('b'), finished] })
      await store.append(runOf('cable'), 1, lines.slice(0, 1))
      const holder = await connectTo(server.url('site'))
      // Somebody holds the lock of the run, so that the call stands in the middle of its transaction.
      await holder.transaction(async (query) => {
        await query("SELECT pg_advisory_xact_lock(20260302, hashtext('cable'))")
        const pending = store.append(runOf('cable'), 2, lines.slice(1)).then(
          () => 'done',
          (error: Error) => error.message
        )
        const waiting = "FROM pg_stat_activity WHERE wait_event = 'advisory' AND usename = 'tablet'"
        await until(query, `SELECT count(*) > 0 AS so ${waiting}`)
        await query(`SELECT pg_terminate_backend(pid) ${waiting}`)
        expect(await pending).toMatch(/connection broke.*what stands there already is passed over/)
      })
      await holder.close()
      expect((await store.heads(['cable'])).get('cable')?.entries).toBe(1)
      expect(await store.append(runOf('cable'), 1, lines)).toEqual({ kind: 'appended', added: 3, entries: 4 })
    })
  })

  it('has nothing of a transaction that failed at its last line', () => {
    const [first = '', second = ''] = sampleLines({ run: 'half', events: [note('x')] })
    const hex = (text: string): string => `'\\x${Buffer.from(text).toString('hex')}'`
    const values = `('half', 1, ${hex(first)}), ('half', 2, ${hex(second)}), ('half', 4, ${hex(second)})`
    expect(() => server.sql('site', `INSERT INTO lockwright.entries VALUES ${values}`, 'tablet')).toThrow(
      /the next line is 3/
    )
    for (const table of ['entries', 'runs', 'run_people', 'hung_locks']) {
      expect(server.sql('site', `SELECT count(*) FROM lockwright.${table} WHERE run = 'half'`).trim()).toBe('0')
    }
  })

  it('says so when the server is gone, and goes on when it is back in the same place', async () => {
    await withStores(1, async (stores) => {
      const [store] = stores as [Store]
      server.sql('site', "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE usename = 'tablet'")
      server.sql('postgres', 'ALTER DATABASE site ALLOW_CONNECTIONS false')
      await expect(store.runIds()).rejects.toMatchObject({ name: 'StoreFailure', fault: { id: 'store-failed' } })
      server.sql('postgres', 'ALTER DATABASE site ALLOW_CONNECTIONS true')
      expect((await store.runIds()).length).toBeGreaterThan(0)
    })
  })
})

async function until(query: Query, condition: string): Promise<void> {
  while ((await query(condition))[0]?.['so'] !== true) {
    await query('SELECT pg_sleep(0.01), pg_stat_clear_snapshot()')
  }
}

/** MTH of RFC 9162, section 2.1.1, as it is written there. */
function naiveRoot(hashes: readonly Uint8Array[]): Uint8Array {
  if (hashes.length === 1) return hashes[0] ?? new Uint8Array()
  const split = splitOf(hashes.length)
  return nodeHash(naiveRoot(hashes.slice(0, split)), naiveRoot(hashes.slice(split)))
}
