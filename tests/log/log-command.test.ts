import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { readRoster, thumbprint } from '@lockwright/records'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { check, checkpoint, prove } from '../../packages/cli/src/commands/log.js'
import { declareVoid, listSheets } from '../../packages/cli/src/commands/sheets.js'
import { fanMachine } from '../../packages/records/fixtures/fan-machine.js'
import { fanJob, person, scriptedClock, walk } from '../../packages/records/fixtures/plant.js'
import { addPerson, initSite, unlockKey } from '../../packages/records/src/people.js'
import type { RecordsResult } from '../../packages/records/src/result.js'
import { startRun } from '../../packages/records/src/run.js'
import { registerSheet } from '../../packages/records/src/sheets/register-sheet.js'
import type { Site } from '../../packages/records/src/site.js'

function value<Value>(result: RecordsResult<Value>): Value {
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

let folder: string
let site: Site
const held = process.env['LOCKWRIGHT_ROOT_PASSPHRASE']

/** What a command prints for its reader, and with what it ends. */
async function told(
  command: () => number | Promise<number>
): Promise<{ readonly code: number; readonly out: string; readonly notes: string }> {
  const out = vi.spyOn(process.stdout, 'write').mockReturnValue(true)
  const notes = vi.spyOn(process.stderr, 'write').mockReturnValue(true)
  try {
    const code = await command()
    const all = (spy: { readonly mock: { readonly calls: readonly (readonly unknown[])[] } }) =>
      spy.mock.calls.map(([text]) => String(text)).join('')
    return { code, out: all(out), notes: all(notes) }
  } finally {
    out.mockRestore()
    notes.mockRestore()
  }
}

beforeAll(() => {
  process.env['LOCKWRIGHT_ROOT_PASSPHRASE'] = 'root of sandholm'
  folder = mkdtempSync(join(tmpdir(), 'lockwright-log-'))
  const clock = scriptedClock()
  site = value(
    initSite({
      folder: join(folder, 'site'),
      name: 'Sandholm waterworks',
      passphrase: 'root of sandholm',
      clock,
      cost: 2 ** 15
    })
  )
  const root = value(unlockKey(site, 'site-root', 'root of sandholm'))
  for (const id of ['odd', 'runa']) {
    value(addPerson({ site, id, name: id, qualifications: [], passphrase: null, root, clock }))
  }
  for (const [id, steps] of [
    ['first', fanJob],
    ['second', fanJob.slice(0, 3)]
  ] as const) {
    const run = value(startRun({ site, machine: fanMachine, mode: 'draft', by: person('odd'), clock, id }))
    walk(
      run,
      clock,
      steps.map((step) => ({ ...step, signed: false }))
    )
    if (run.snapshot.status === 'running') {
      const stop = run.take({ kind: 'stopped', reason: 'No spare bearing', left: 'Locked', by: person('odd') })
      expect(stop.ok).toBe(true)
    }
    run.close()
  }
})

afterAll(() => {
  rmSync(folder, { recursive: true, force: true })
  if (held === undefined) delete process.env['LOCKWRIGHT_ROOT_PASSPHRASE']
  else process.env['LOCKWRIGHT_ROOT_PASSPHRASE'] = held
})

describe('lockwright log', () => {
  it('signs, proves and checks, with the site and without it', async () => {
    const signed = await told(() => checkpoint(site.folder, {}))
    expect(signed.code).toBe(0)
    expect(signed.out).toMatch(/^lockwright\/sandholm-waterworks\/\S{43}\n2\n\S{44}\n\n— lockwright\/\S+ \S+\n$/)
    const kept = join(folder, 'kept.txt')
    writeFileSync(kept, signed.out)
    const key = /Key for whoever checks them: (\S+)/.exec(signed.notes)?.[1] ?? ''
    const trusted = thumbprint(value(readRoster(site)).root)

    const good = await told(() => check(site.folder, { checkpoint: kept, trusted, format: 'text' }))
    expect(good).toMatchObject({ code: 0, notes: '' })
    expect(good.out).toContain('Nothing was removed, rewritten, put in or moved.')

    const proof = join(folder, 'second.tlog-proof')
    await told(() => prove(site.folder, 'second', { out: proof }))
    const journal = join(site.folder, 'runs', 'second.jsonl')
    const offline = await told(() => check(undefined, { proof, key, journal, format: 'text' }))
    expect(offline.code).toBe(0)
    expect(offline.out).toContain('Run second is in the log lockwright/sandholm-waterworks/')
    expect(offline.out).toContain('still on: lock 17 of odd on Q1')

    const copy = join(folder, 'copy')
    cpSync(site.folder, copy, { recursive: true })
    rmSync(join(copy, 'runs', 'first.jsonl'))
    writeFileSync(join(copy, 'runs', 'second.jsonl'), readFileSync(journal, 'utf8').replace('No spare', 'A spare'))
    const bad = await told(() => check(copy, { checkpoint: kept, format: 'text' }))
    expect(bad.code).toBe(1)
    expect(bad.out).toMatch(/finding run-removed {2}.*first\.jsonl\n {2}The journal of run `first` is gone/)
    expect(bad.out).toMatch(
      /finding run-rewritten {2}.*second\.jsonl\n.*\n {2}Why it is dangerous: .*\n {2}What to do: /
    )
    const json = await told(() => check(copy, { checkpoint: kept, format: 'json' }))
    expect(JSON.parse(json.out).findings.map(({ id }: { id: string }) => id)).toEqual(['run-removed', 'run-rewritten'])
    const changed = await told(() =>
      check(undefined, { proof, key, journal: join(copy, 'runs', 'second.jsonl'), format: 'text' })
    )
    expect(changed).toMatchObject({ code: 1 })
  })

  it('says in one sentence what is missing', async () => {
    expect(() => check(undefined, { format: 'text' })).toThrow(/give the site folder/)
    const proof = join(folder, 'second.tlog-proof')
    expect(() => check(undefined, { proof, format: 'text' })).toThrow(/One that came with the proof proves nothing/)
    expect(() => check(undefined, { proof, key: 'lockwright+x', format: 'text' })).toThrow(/was not copied whole/)
    expect(() => prove(site.folder, 'third', {})).toThrow(/has no leaf in the log/)
  })
})

describe('lockwright sheets', () => {
  it('lists what is out and takes one out of the list, with a reason', async () => {
    const none = await told(() => listSheets(site.folder, { format: 'text' }))
    expect(none).toMatchObject({ code: 0, out: expect.stringContaining('No sheet was printed') })
    const of = {
      machine: 'ab'.repeat(32),
      procedure: 'F12-BEARING',
      revision: 2,
      generations: { drive: 'old' },
      languages: ['en'],
      printedAt: '2026-03-02T07:00:00.000Z',
      by: 'odd'
    }
    const { serial } = value(registerSheet(site, of))
    const out = await told(() => listSheets(site.folder, { out: true, format: 'text' }))
    expect(out.out).toBe(
      `${serial}  F12-BEARING revision 2 (drive old, en), printed by odd\n    out since 2026-03-02T07:00:00.000Z\n`
    )
    expect(
      (await told(() => declareVoid(site.folder, serial.toLowerCase(), { reason: 'Coffee', by: 'odd' }))).code
    ).toBe(0)
    expect((await told(() => listSheets(site.folder, { out: true, format: 'text' }))).out).toBe('No sheet is out.\n')
    expect((await told(() => listSheets(site.folder, { format: 'text' }))).out).toMatch(/void since .*, by odd: Coffee/)
    const json = JSON.parse((await told(() => listSheets(site.folder, { format: 'json' }))).out)
    expect(json.sheets[0].state.kind).toBe('void')
    expect(() =>
      declareVoid(site.folder, `${serial.slice(0, -1)}${serial.endsWith('0') ? '1' : '0'}`, {
        reason: 'Torn in two',
        by: 'odd'
      })
    ).toThrow(/mistyped/)
  })
})
