import { readFileSync } from 'node:fs'
import { migrate } from '@lockwright/records/postgres'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type Connection, connectTo } from '../../packages/records/src/postgres/connection.js'
import * as statements from '../../packages/records/src/postgres/list-queries.js'
import { postgresPrograms, type Server, startServer } from './server.js'

const name =
  postgresPrograms === null ? 'plans (PostgreSQL is not installed here: not tried)' : 'the plans of what an audit asks'
const runs = 20_000
const last = Date.UTC(2026, 0, 1) + runs * 3_600_000

/** Every statement that the store has, but for the lists that read everything because they are asked for everything. */
const asked: readonly (readonly [what: string, statement: statements.Statement])[] = [
  ['open runs', statements.listStatement({ open: true })],
  ['hanging locks', statements.listStatement({ hanging: true })],
  ['runs since', statements.listStatement({ since: new Date(last - 50 * 3_600_000).toISOString() })],
  ['runs of an equipment', statements.listStatement({ equipment: 'E-77' })],
  ['runs of a procedure', statements.listStatement({ procedure: 'P77' })],
  ['runs of a person', statements.listStatement({ person: 'person-77' })],
  ['open runs of an equipment', statements.listStatement({ open: true, equipment: 'E-77' })],
  ['journal of a run', statements.journalStatement('run-0000077')],
  ['heads of runs', statements.headsStatement(['run-0000077', 'run-0000078'])],
  ['documents of a folder', statements.documentsStatement('issued')],
  ['a document', statements.documentStatement('issued/x')],
  ['sheets out', statements.sheetsOutStatement],
  ['the roster', statements.signedStatement('people.yaml')],
  ['new leaves', statements.leavesStatement(runs - 100, 1000)],
  ['how many leaves', statements.leafCountStatement],
  ['leaves of runs', statements.leafHashesStatement(['run-0000077', 'run-0000078'])],
  ['a tile', statements.nodesStatement(0, 256, 256)],
  ['the last checkpoint', statements.checkpointStatement]
]

/** Tables that grow with the runs. What else there is stays small. */
const big = ['entries', 'runs', 'run_people', 'documents', 'leaves', 'nodes']

interface Plan {
  readonly 'Node Type': string
  readonly 'Relation Name'?: string
  readonly Plans?: readonly Plan[]
}

describe.runIf(postgresPrograms !== null)(name, () => {
  let server: Server
  let connection: Connection
  beforeAll(async () => {
    server = await startServer()
    server.create('site')
    await migrate(server.url('site'))
    const fill = readFileSync(new URL('fill.sql', import.meta.url), 'utf8')
    server.sql('site', `\\set runs ${runs}\n${fill}`)
    connection = await connectTo(server.url('site'))
  })
  afterAll(async () => {
    await connection.close()
    await server.stop()
  })

  const scanned = async ({ text, values }: statements.Statement): Promise<readonly string[]> => {
    const rows = await connection.query(`EXPLAIN (FORMAT JSON) ${text}`, values)
    const [{ Plan }] = rows.flatMap((row) => row['QUERY PLAN']) as unknown as [{ readonly Plan: Plan }]
    return nodesOf(Plan).flatMap((node) =>
      node['Node Type'].endsWith('Seq Scan') ? [node['Relation Name'] ?? ''] : []
    )
  }

  it.each(asked)('read no big table from end to end: %s', async (_, statement) => {
    expect((await scanned(statement)).filter((table) => big.includes(table))).toEqual([])
  })

  it('are looked at by a test that finds what it is to find', async () => {
    expect(await scanned({ text: 'SELECT * FROM lockwright.runs WHERE opened_by = $1', values: ['x'] })).toEqual([
      'runs'
    ])
    expect(Object.keys(statements).length).toBe(12)
  })
})

function nodesOf(plan: Plan): readonly Plan[] {
  return [plan, ...(plan.Plans ?? []).flatMap(nodesOf)]
}
