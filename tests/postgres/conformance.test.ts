import { migrate, postgresStore } from '@lockwright/records/postgres'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { conformance } from '../../packages/records/src/store/conformance.js'
import { postgresPrograms, type Server, startServer } from './server.js'

const name =
  postgresPrograms === null ? 'PostgreSQL as a store (not installed here: not tried)' : 'PostgreSQL as a store'

describe.runIf(postgresPrograms !== null)(name, () => {
  let server: Server
  beforeAll(async () => {
    server = await startServer()
    server.create('model')
    const made = await migrate(server.url('model'))
    expect(made).toMatchObject({ ok: true })
    server.sql('model', 'CREATE ROLE tablet LOGIN IN ROLE lockwright_runner')
  })
  afterAll(() => server.stop())

  // Every promise is kept by what a runner may do, in a database of its own.
  it.each(conformance.map((one, n) => ({ ...one, database: `case_${n}` })))('$promise', async ({ check, database }) => {
    server.sql('postgres', `CREATE DATABASE ${database} TEMPLATE model`)
    const open = () => postgresStore(server.url(database, 'tablet'))
    const opened = [await open()]
    try {
      await check({
        store: opened[0] ?? (await open()),
        again: async () => {
          const other = await open()
          opened.push(other)
          return other
        }
      })
    } finally {
      for (const store of opened) await store.close()
    }
  })
})
