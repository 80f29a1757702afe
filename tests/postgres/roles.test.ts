import { migrate, postgresStore } from '@lockwright/records/postgres'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import {
  fileOf,
  finished,
  hung,
  newRoot,
  runOf,
  sampleLeaf,
  sampleLines,
  sampleRoster
} from '../../packages/records/src/store/conformance/sample-records.js'
import { postgresPrograms, type Server, startServer } from './server.js'

const name =
  postgresPrograms === null ? 'roles (PostgreSQL is not installed here: not tried)' : 'roles of a shared store'
const lines = sampleLines({ events: [hung('Q1', '17'), finished] })
const hex = (text: string): string => `'\\x${Buffer.from(text).toString('hex')}'`

/** What no role of ours may do. Each is tried as the runner, and must be denied; the last column says by what. */
const tricks: readonly (readonly [what: string, sql: string, denied: RegExp])[] = [
  ['update an entry', "UPDATE lockwright.entries SET line = 'x'", /permission denied/],
  ['update nothing', "UPDATE lockwright.entries SET line = 'x' WHERE false", /permission denied/],
  ['delete an entry', 'DELETE FROM lockwright.entries', /permission denied/],
  ['truncate', 'TRUNCATE lockwright.entries', /permission denied/],
  ['truncate what follows', 'TRUNCATE lockwright.runs CASCADE', /permission denied/],
  ['drop', 'DROP TABLE lockwright.entries', /must be owner/],
  ['rename', 'ALTER TABLE lockwright.entries RENAME TO gone', /must be owner/],
  ['switch the triggers off', 'ALTER TABLE lockwright.entries DISABLE TRIGGER ALL', /must be owner/],
  ['switch one trigger off', 'ALTER TABLE lockwright.entries DISABLE TRIGGER take_entry', /must be owner/],
  ['switch all triggers off for the session', 'SET session_replication_role = replica', /permission denied/],
  [
    'put a trigger before ours',
    'CREATE TRIGGER a BEFORE INSERT ON lockwright.entries FOR EACH ROW EXECUTE FUNCTION own.nothing()',
    /permission denied|must be owner/
  ],
  ['make a rule', 'CREATE RULE a AS ON INSERT TO lockwright.entries DO INSTEAD NOTHING', /must be owner/],
  ['update through a view of its own', "UPDATE own.seen SET line = 'x'", /permission denied/],
  ['delete through a view of its own', 'DELETE FROM own.seen', /permission denied/],
  ['update through a function of its own', 'SELECT own.change()', /permission denied/],
  [
    'update on conflict',
    `INSERT INTO lockwright.entries VALUES ('pump', 1, ${hex(lines[0] ?? '')}) ON CONFLICT (run, seq) DO UPDATE SET line = 'x'`,
    /permission denied/
  ],
  [
    'merge',
    "MERGE INTO lockwright.entries e USING (SELECT 'pump' AS run) s ON e.run = s.run WHEN MATCHED THEN DELETE",
    /permission denied/
  ],
  ['lock rows against others', 'SELECT * FROM lockwright.entries FOR UPDATE', /permission denied/],
  [
    'lock the table against others',
    'BEGIN; LOCK TABLE lockwright.entries IN ACCESS EXCLUSIVE MODE',
    /permission denied/
  ],
  ['copy a gap in', `COPY lockwright.entries FROM STDIN;\npump\t9\t\\\\x7b7d\n\\.`, /LW001|the next line is/],
  ['copy what is no entry in', `COPY lockwright.entries FROM STDIN;\npump\t4\t\\\\x7b7d\n\\.`, /does not follow/],
  [
    'copy from a file of the server',
    "COPY lockwright.entries FROM '/etc/passwd'",
    /permission denied|must be superuser/
  ],
  ['copy from a program', "COPY lockwright.entries FROM PROGRAM 'id'", /permission denied|must be superuser/],
  [
    'add a line a second time',
    `INSERT INTO lockwright.entries VALUES ('pump', 3, ${hex(lines[2] ?? '')})`,
    /the next line is 4/
  ],
  [
    'add a line of its own making',
    `INSERT INTO lockwright.entries VALUES ('pump', 4, ${hex('{"run":"pump","seq":4,"prev":"00"}')})`,
    /does not follow/
  ],
  [
    'add what is not even JSON',
    `INSERT INTO lockwright.entries VALUES ('fan', 1, ${hex('x')})`,
    /invalid input syntax/
  ],
  [
    'add a run of a name that is none',
    `INSERT INTO lockwright.entries VALUES ('../x', 1, ${hex((lines[0] ?? '').replace('"run":"pump"', '"run":"../x"'))})`,
    /check constraint/
  ],
  [
    'keep what its name does not hash to',
    `INSERT INTO lockwright.documents (path, content) VALUES ('issued/${'0'.repeat(64)}.json', 'x')`,
    /check constraint/
  ],
  [
    'keep an attachment of a name of its own',
    "INSERT INTO lockwright.documents (path, content) VALUES ('attachments/x', 'x')",
    /check constraint/
  ],
  [
    'keep a key',
    "INSERT INTO lockwright.documents (path, content) VALUES ('keys/site-root.key', 'x')",
    /check constraint/
  ],
  ['say how a run stands', "UPDATE lockwright.runs SET status = 'running'", /permission denied/],
  ['add a run without entries', "INSERT INTO lockwright.runs (run) VALUES ('x')", /permission denied/],
  ['take a lock off the list', 'DELETE FROM lockwright.hung_locks', /permission denied/],
  [
    'choose the place of a leaf',
    `INSERT INTO lockwright.leaves (index, run, line) VALUES (7, 'pump', ${hex(sampleLeaf(lines))})`,
    /permission denied/
  ],
  [
    'add a leaf of a run that is not there',
    `INSERT INTO lockwright.leaves (run, line) VALUES ('fan', ${hex(sampleLeaf(lines))})`,
    /does not stand here/
  ],
  [
    'add a second leaf for a run',
    `INSERT INTO lockwright.leaves (run, line) VALUES ('pump', ${hex(sampleLeaf(lines))})`,
    /duplicate key/
  ],
  ['add a hash to the tree', "INSERT INTO lockwright.nodes VALUES (0, 7, 'x')", /permission denied/],
  [
    'say what a document hashes to',
    "INSERT INTO lockwright.documents (path, sha256, content) VALUES ('drafts/x', 'x', 'y')",
    /permission denied/
  ],
  [
    'put an older roster in front',
    "INSERT INTO lockwright.signed (name, serial, content) VALUES ('people.yaml', 1, 'x')",
    /holds already/
  ],
  [
    'put another roster of that number in front',
    "INSERT INTO lockwright.signed (name, serial, content) VALUES ('people.yaml', 2, 'x')",
    /holds already/
  ],
  ['change what was migrated', "INSERT INTO lockwright.migrations VALUES (9, 'x', 'y')", /permission denied/],
  ['call a trigger by hand', 'SELECT lockwright.take_entry()', /permission denied/],
  [
    'put a function of its own in the way',
    'CREATE FUNCTION lockwright.sha256(bytea) RETURNS bytea LANGUAGE sql AS $$ SELECT $1 $$',
    /permission denied/
  ],
  ['become the owner', 'SET ROLE keeper', /permission denied/],
  [
    'grant itself more',
    "GRANT UPDATE ON lockwright.entries TO tablet; UPDATE lockwright.entries SET line = 'x'",
    /permission denied/
  ],
  ['make others owners', 'ALTER TABLE lockwright.entries OWNER TO tablet', /must be owner/]
]

describe.runIf(postgresPrograms !== null)(name, () => {
  let server: Server
  const all = (): string =>
    server.sql(
      'site',
      ['entries', 'documents', 'signed', 'leaves', 'nodes', 'runs', 'run_people', 'hung_locks', 'migrations']
        .map((table) => `SELECT '${table}', md5(string_agg(t::text, ',' ORDER BY t::text)) FROM lockwright.${table} t`)
        .join(' UNION ALL ')
    )

  beforeAll(async () => {
    server = await startServer()
    // The owner is no superuser: that is how it should be run.
    server.sql('postgres', 'CREATE ROLE keeper LOGIN CREATEROLE')
    server.sql('postgres', 'CREATE DATABASE site OWNER keeper')
    const made = await migrate(server.url('site', 'keeper'))
    expect(made).toMatchObject({ ok: true, value: { applied: ['0001-records.sql', '0002-roles.sql'] } })
    server.sql(
      'site',
      'CREATE ROLE tablet LOGIN IN ROLE lockwright_runner; CREATE ROLE auditor LOGIN IN ROLE lockwright_auditor'
    )
    server.sql('site', 'CREATE SCHEMA own AUTHORIZATION tablet')
    server.sql(
      'site',
      `CREATE VIEW own.seen AS SELECT * FROM lockwright.entries;
       CREATE FUNCTION own.nothing() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN RETURN NULL; END $$;
       CREATE FUNCTION own.change() RETURNS void LANGUAGE sql SECURITY DEFINER AS $$ UPDATE lockwright.entries SET line = 'x' $$;`,
      'tablet'
    )
    const store = await postgresStore(server.url('site', 'tablet'))
    await store.supersede('people.yaml', sampleRoster(newRoot(), 2))
    await store.append(runOf('pump'), 1, lines)
    await store.addLeaf(sampleLeaf(lines))
    await store.close()
  })
  afterAll(() => server.stop())

  it.each(tricks)('the runner cannot %s', (_, sql, denied) => {
    const before = all()
    expect(() => server.sql('site', sql, 'tablet')).toThrow(denied)
    expect(all()).toBe(before)
  })

  it.each([
    "INSERT INTO lockwright.documents (path, content) VALUES ('drafts/x', 'y')",
    "INSERT INTO lockwright.checkpoints VALUES (1, 'x')",
    `INSERT INTO lockwright.entries VALUES ('fan', 1, ${hex(sampleLines({ run: 'fan' })[0] ?? '')})`,
    'DELETE FROM lockwright.entries',
    'TRUNCATE lockwright.leaves'
  ])('the auditor only reads: %s', (sql) => {
    expect(() => server.sql('site', sql, 'auditor')).toThrow(/permission denied/)
  })

  it('lets the auditor read everything that the audit asks for', async () => {
    const store = await postgresStore(server.url('site', 'auditor'))
    try {
      expect(Buffer.from((await store.journal('pump')) ?? [])).toEqual(fileOf(lines))
      expect((await store.runs()).runs).toHaveLength(1)
      expect(await store.leaves()).toEqual([sampleLeaf(lines)])
      expect(await store.tile({ level: 0, index: 0, width: 1 })).not.toBeNull()
      expect(await store.signed('people.yaml')).not.toBeNull()
      expect(await store.documents('issued')).toEqual([])
      expect(await store.sheetsOut()).toEqual([])
      await expect(store.append(runOf('fan'), 1, sampleLines({ run: 'fan' }))).rejects.toThrow(
        /does not let this user do that/
      )
    } finally {
      await store.close()
    }
  })

  it.each(['entries', 'documents', 'signed', 'leaves', 'nodes', 'checkpoints'])(
    'keeps even the owner from changing %s by accident',
    (table) => {
      const before = all()
      const column = { signed: 'content', documents: 'content', nodes: 'hash', checkpoints: 'note' }[table] ?? 'line'
      for (const sql of [
        `UPDATE lockwright.${table} SET ${column} = 'x'`,
        `DELETE FROM lockwright.${table}`,
        `TRUNCATE lockwright.${table}`
      ]) {
        expect(() => server.sql('site', sql, 'keeper')).toThrow(/records are only added to/)
      }
      expect(all()).toBe(before)
    }
  )

  it('lets nobody else in', () => {
    server.sql('site', 'CREATE ROLE stranger LOGIN')
    expect(() => server.sql('site', 'SELECT * FROM lockwright.entries', 'stranger')).toThrow(/permission denied/)
    expect(() => server.sql('site', "SELECT lockwright.key_of('x')", 'stranger')).toThrow(/permission denied/)
  })
})
