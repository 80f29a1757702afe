import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { parse } from 'csv-parse/sync'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { lockwright, root, type Spoken } from '../cli/transcript.js'
import { inEventfulSite } from './eventful-site.js'

const folder = mkdtempSync(join(tmpdir(), 'lockwright-audit-command-'))
beforeAll(async () => {
  await inEventfulSite(async ({ site }) => cpSync(site.folder, join(folder, 'site'), { recursive: true }))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const secrets = { LOCKWRIGHT_PASSPHRASE: 'pass of a person', LOCKWRIGHT_ROOT_PASSPHRASE: 'pass of the root' }
const say = (...args: readonly string[]): Spoken => lockwright(args, { cwd: folder, env: secrets })

describe('lockwright audit', () => {
  it('tells what hangs now, and nothing else, with --hanging', () => {
    const { said, code } = say('audit', 'site', '--hanging')
    expect(code).toBe(1)
    expect(said).toContain('What hangs now: 3 locks')
    expect(said).toMatch(/17 +Q1 \(switch, left door\) +Odd Teig \(odd\) +2026-12-19T/)
    expect(said).not.toContain('Entries')
    expect(JSON.parse(say('audit', 'site', '--hanging', '--format', 'json').said).hanging).toHaveLength(3)
  })

  it('writes page, PDF and table beside what it prints, and says where', () => {
    const { said, code } = say('audit', 'site', '--brief', '--html', 'o/a.html', '--pdf', 'o/a.pdf', '--csv', 'o/a.csv')
    expect(code).toBe(1)
    for (const name of ['o/a.html', 'o/a.pdf', 'o/a.csv']) expect(said).toContain(`wrote ${name}`)
    expect(readFileSync(join(folder, 'o/a.pdf')).subarray(0, 5).toString()).toBe('%PDF-')
    expect(readFileSync(join(folder, 'o/a.html'), 'utf8')).toContain('<svg')
    const table = parse(readFileSync(join(folder, 'o/a.csv'), 'utf8'), { columns: true, record_delimiter: '\r\n' })
    expect(table.length).toBeGreaterThan(18)
  })

  it('chooses runs and says what it left out', () => {
    const { said } = say('audit', 'site', '--since', '2026-08-01', '--person', 'runa', '--brief')
    expect(said).toContain('Asked for runs with something in them since 2026-08-01, with runa in them: 2 runs told.')
    expect(said).toMatch(/Left out: \d+ runs that ended before 2026-08-01\./)
    expect(say('audit', 'site', '--since', 'spring').said).toContain('--since spring is no day')
  })

  it('takes a journal, the folder of journals of a site, and journals that lie elsewhere with their site', () => {
    expect(say('audit', 'site/runs/routine-1-1.jsonl').code).toBe(0)
    cpSync(join(folder, 'site/runs/routine-1-1.jsonl'), join(folder, 'copies/routine-1-1.jsonl'))
    expect(say('audit', 'copies', '--site', 'site').code).toBe(0)
    expect(say('audit', 'copies').said).toContain('Give --site with the site that they are from')
    expect(say('audit', 'site/runs', '--brief').said).toContain('18 runs:')
  })

  it('prints its schema and SARIF as JSON, and refuses --new-only without a checkpoint', () => {
    expect(JSON.parse(say('audit', 'site', '--format', 'schema').said).title).toBe('lockwright audit report, version 2')
    expect(JSON.parse(say('audit', 'site', '--format', 'sarif').said).version).toBe('2.1.0')
    expect(say('audit', 'site', '--new-only')).toMatchObject({ code: 2, said: expect.stringContaining('--checkpoint') })
  })
})

describe('what an auditor keeps', () => {
  it('is written with --keep once a checkpoint was signed, and given as --checkpoint next time', () => {
    expect(say('people', 'init', '--site', 'kept', '--name', 'Sandholm waterworks').code).toBe(0)
    const nothing = say('audit', 'kept', '--keep', 'k/kept.json')
    expect([nothing.code, nothing.said]).toEqual([2, expect.stringContaining('Nothing was kept of this audit')])
    expect(existsSync(join(folder, 'k/kept.json'))).toBe(false)
    expect(say('log', 'checkpoint', 'kept').code).toBe(0)
    expect(say('audit', 'kept', '--keep', 'k/kept.json').said).toContain('wrote k/kept.json')
    const next = say('audit', 'kept', '--checkpoint', 'k/kept.json', '--new-only', '--keep', 'k/next.json')
    expect(next.said).toContain('  whole: good')
    expect(JSON.parse(readFileSync(join(folder, 'k/next.json'), 'utf8')).runs).toEqual([])
    expect(say('log', 'check', 'kept', '--checkpoint', 'k/kept.json').code).toBe(0)
    const dated = say('audit', 'kept', '--checkpoint', 'k/kept.json', '--kept-since', '2026-03-02')
    expect(dated).toMatchObject({ code: 2, said: expect.stringContaining('has its own date in it') })
  })

  it('bears a date, or is given one that can be read, for a checkpoint that is given', () => {
    const refused = (...more: readonly string[]) => say('audit', 'site', '--kept-since', ...more)
    expect(refused('spring')).toMatchObject({ code: 2, said: expect.stringContaining('--kept-since spring is no day') })
    expect(refused('2026-03-02')).toMatchObject({ code: 2, said: expect.stringContaining('needs --checkpoint') })
  })
})

describe('lockwright inspect', () => {
  it('signs an inspection whose certificate is printed and that the audit counts; refuses a user of the procedure', () => {
    cpSync(join(root, 'procedures/booster-pump-precharge.md'), join(folder, 'pump.md'))
    const done = (...args: readonly string[]): string => {
      const { code, said } = say(...args)
      expect([args.slice(0, 2).join(' '), code, code === 0 ? '' : said]).toEqual([args.slice(0, 2).join(' '), 0, ''])
      return said
    }
    done('people', 'init', '--site', 'own', '--name', 'Sandholm waterworks')
    done('people', 'add', 'mira', '--site', 'own', '--name', 'Mira Lund', '--holds', 'coordinator')
    done('people', 'add', 'vega', '--site', 'own', '--name', 'Vega Dahl', '--holds', 'electrical-lv')
    done('people', 'add', 'lind', '--site', 'own', '--name', 'Lind Ask', '--no-key')
    done('issue', 'pump.md', '--site', 'own', '--by', 'mira')
    const procedure = JSON.parse(
      readFileSync(
        join(
          folder,
          'own/issued',
          readdirSync(join(folder, 'own/issued')).find((name) => name.endsWith('.json')) ?? ''
        ),
        'utf8'
      )
    ).procedure
    const inspect = (...more: readonly string[]): Spoken => say('inspect', 'own', procedure, '--by', 'vega', ...more)
    expect(inspect('--employee', 'vega')).toMatchObject({
      code: 2,
      said: expect.stringContaining('1910.147(c)(6)(i)(A)')
    })
    expect(inspect('--employee', 'lind', '--deviation', 'no arrow')).toMatchObject({ code: 2 })
    expect(existsSync(join(folder, 'own/inspections'))).toBe(false)
    const signed = inspect('--employee', 'lind', '--reviewed', 'lind', '--deviation', 'a => b', '--pdf', 'c.pdf')
    expect([signed.code, signed.said]).toEqual([0, expect.stringContaining('Vega Dahl signed the inspection of')])
    expect(readFileSync(join(folder, 'c.pdf')).subarray(0, 5).toString()).toBe('%PDF-')
    const [state] = JSON.parse(say('audit', 'own', '--format', 'json').said).inspections
    expect(state).toMatchObject({ procedure, overdue: false, last: { by: 'Vega Dahl' } })
  })
})
