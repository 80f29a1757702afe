import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { generalOf, inAuditedPlant } from '../../packages/records/fixtures/audited-plant.js'
import { fanJob, keyOf } from '../../packages/records/fixtures/plant.js'
import { audit, auditAndKeep } from '../../packages/records/src/audit/audit.js'
import { formatKept } from '../../packages/records/src/audit/kept.js'
import { migrate } from '../../packages/records/src/postgres/migrate.js'
import { postgresStore } from '../../packages/records/src/postgres/postgres-store.js'
import type { RecordsResult } from '../../packages/records/src/result.js'
import { signStoreLog } from '../../packages/records/src/store/sign-store-log.js'
import { syncSite } from '../../packages/records/src/store/sync.js'
import { postgresPrograms, type Server, startServer } from './server.js'

const name =
  postgresPrograms === null
    ? 'what an auditor keeps of a shared store (PostgreSQL is not installed here: not tried)'
    : 'what an auditor keeps of a shared store'

function must<Value>(result: RecordsResult<Value>): Value {
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

describe.runIf(postgresPrograms !== null)(name, () => {
  let server: Server
  beforeAll(async () => {
    server = await startServer()
  })
  afterAll(() => server.stop())

  it('stands for the older runs, and tells what whoever owns the database took out of them', async () => {
    server.create('kept')
    await migrate(server.url('kept'))
    server.sql('postgres', 'CREATE ROLE bench LOGIN IN ROLE lockwright_runner')
    server.sql('postgres', 'CREATE ROLE auditor LOGIN IN ROLE lockwright_auditor')
    await inAuditedPlant(async ({ site, clock, put }) => {
      const bench = await postgresStore(server.url('kept', 'bench'))
      const store = await postgresStore(server.url('kept', 'auditor'))
      put('a')
      put('b')
      await syncSite(site, bench)
      must(await signStoreLog(bench, keyOf('root')))
      const first = await auditAndKeep({ store, clock })
      const checkpoint = formatKept(must(first.kept))
      put('c')
      put('open', fanJob.slice(0, 4))
      await syncSite(site, bench)
      const quick = await audit({ store, clock, checkpoint, newOnly: true })
      expect(quick.runs.map(({ run, answer }) => [run, answer])).toEqual([
        ['c', 'good'],
        ['open', 'cannot-tell']
      ])
      expect(quick.asked.covered).toMatchObject({ runs: 2, kept: JSON.parse(checkpoint).at })
      expect(generalOf(quick, 'whole')).toEqual([])
      // As the owner of the database, past the triggers.
      server.sql(
        'kept',
        "SET session_replication_role = replica; UPDATE lockwright.leaves SET line = (SELECT line FROM lockwright.leaves WHERE run = 'c') WHERE run = 'a'; DELETE FROM lockwright.runs WHERE run = 'a'; DELETE FROM lockwright.entries WHERE run = 'a'"
      )
      const gone = await audit({ store, clock, checkpoint, newOnly: true })
      expect(generalOf(gone, 'whole')).toEqual(['fault run-removed'])
      const all = await audit({ store, clock, checkpoint })
      expect(generalOf(all, 'whole')).toContain('fault log-forked')
      expect(generalOf(all, 'whole')).toContain('fault run-taken-from-log')
      await bench.close()
      await store.close()
    })
  })
})
