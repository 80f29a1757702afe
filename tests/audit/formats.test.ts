import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { type AuditReport, auditSarif, formatAuditCsv } from '@lockwright/records'
import { Ajv } from 'ajv'
import { parse } from 'csv-parse/sync'
import { beforeAll, describe, expect, it } from 'vitest'
import { inEventfulSite } from './eventful-site.js'

let report: AuditReport
let one: AuditReport

beforeAll(async () => {
  await inEventfulSite(async ({ audited }) => {
    report = await audited()
    one = await audited({ run: 'left-open' })
  })
})

const findingsIn = ({ general, runs }: AuditReport) =>
  [...general, ...runs.flatMap(({ verdicts }) => verdicts)].flatMap(({ question, findings }) =>
    findings.map((finding) => ({ question, finding }))
  )

describe('the report as JSON', () => {
  const published = JSON.parse(
    readFileSync(new URL('../../packages/records/schema/audit.schema.json', import.meta.url), 'utf8')
  )
  const validate = new Ajv({ allErrors: true, strict: true, allowUnionTypes: true }).compile(published)
  const faultsOf = (value: unknown): readonly string[] =>
    validate(JSON.parse(JSON.stringify(value)))
      ? []
      : (validate.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`)

  it('is valid against its published schema, of a site and of one run', () => {
    expect(faultsOf(report)).toEqual([])
    expect(faultsOf(one)).toEqual([])
    expect(findingsIn(report).length).toBeGreaterThan(10)
    expect(report.hanging.length).toBeGreaterThan(2)
  })

  it('is refused by the schema once it is spoilt, so the schema is really asked', () => {
    expect(faultsOf({ ...report, format: 'lockwright-audit/1' }).length).toBeGreaterThan(0)
    expect(faultsOf({ ...report, more: 1 }).length).toBeGreaterThan(0)
    const [run] = report.runs
    expect(faultsOf({ ...report, runs: [{ ...run, verdicts: run?.verdicts.slice(1) }] }).length).toBeGreaterThan(0)
  })
})

describe('the report as CSV', () => {
  /** Strict: quotes only where RFC 4180 has them, and every row as long as the header. */
  const read = (text: string) =>
    parse(text, { columns: true, record_delimiter: '\r\n', relax_quotes: false, relax_column_count: false }) as Record<
      string,
      string
    >[]

  it('has a header, CRLF at every line end, and a row for each finding and each run without one', () => {
    const text = formatAuditCsv(report)
    expect(text.endsWith('\r\n')).toBe(true)
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
    const rows = read(text)
    const good = report.runs.filter(({ verdicts }) => verdicts.every(({ findings }) => findings.length === 0))
    expect(rows.length).toBe(findingsIn(report).length + good.length)
    expect(rows.filter(({ run }) => run === 'routine-1-1')).toMatchObject([
      { verdict: 'good', due: 'good', finding: '' }
    ])
    expect(rows.find(({ finding }) => finding === 'chain-broken')).toMatchObject({
      run: 'touched',
      question: 'whole',
      weight: 'fault',
      what_to_do: expect.stringContaining('Compare with another copy')
    })
  })

  it('gives back every text as it was, quotes and all', () => {
    const rows = read(formatAuditCsv(report))
    for (const { question, finding } of findingsIn(report)) {
      const row = rows.find(
        (one) => one['where'] === finding.where && one['finding'] === finding.id && one['question'] === question
      )
      expect([row?.['what'], row?.['why_it_matters'], row?.['what_to_do']]).toEqual([
        finding.what,
        finding.danger,
        finding.mend
      ])
    }
  })

  it.each(['=1+1', '+49', '-2', '@SUM(A1)', "'=1", '\uFF1D1', '=cmd|"/c calc"!A1, "x"'])(
    'makes %s harmless for a spreadsheet and keeps it, to the letter, behind one apostrophe',
    (hostile) => {
      const [run, ...rest] = one.runs
      if (run?.summary == null) return expect.fail('no run')
      const spoilt = { ...one, runs: [{ ...run, summary: { ...run.summary, equipment: hostile } }, ...rest] }
      for (const row of read(formatAuditCsv(spoilt))) {
        expect(row['equipment']).toBe(`'${hostile}`)
        for (const cell of Object.values(row)) expect(cell).not.toMatch(/^[=+\-@\t\r\uFF1D]/)
      }
    }
  )

  it('writes out what does not show, so nothing in it steers a terminal or splits a row', () => {
    const [run, ...rest] = one.runs
    if (run?.summary == null) return expect.fail('no run')
    const spoilt = { ...one, runs: [{ ...run, summary: { ...run.summary, equipment: '\t\u001b[2J\r\nx' } }, ...rest] }
    expect(read(formatAuditCsv(spoilt))[0]?.['equipment']).toBe('<U+0009><U+001B>[2J<U+000D><U+000A>x')
  })
})

describe('the report as SARIF', () => {
  /** Source: the JSON Schema of SARIF 2.1.0 (OASIS, release rtm.5) in the npm package @microsoft/jest-sarif 1.0.0-beta.0. */
  const file = createRequire(import.meta.url).resolve('@microsoft/jest-sarif/package.json')
  const {
    id: _,
    $schema: __,
    ...schema
  } = JSON.parse(readFileSync(file.replace('package.json', 'lib/schemas/sarif-2.1.0-rtm.5.json'), 'utf8')) as Record<
    string,
    unknown
  >
  const validate = new Ajv({
    strict: false,
    allErrors: true,
    unicodeRegExp: false,
    formats: {
      uri: (text: string) => URL.canParse(text),
      'uri-reference': (text: string) => /^(?:[A-Za-z0-9\-._~:/?#[\]@!$&'()*+,;=]|%[0-9A-Fa-f]{2})*$/.test(text),
      'date-time': (text: string) => !Number.isNaN(Date.parse(text))
    }
  }).compile(schema)
  const faultsOf = (log: unknown): readonly string[] =>
    validate(log) ? [] : (validate.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`)

  it('is valid against the published schema, with a rule and a line for every finding', () => {
    const log = auditSarif(report, { version: '0.1.0' })
    expect(faultsOf(log)).toEqual([])
    const [run] = log.runs
    expect(run.results.length).toBe(findingsIn(report).length)
    for (const { ruleId, ruleIndex } of run.results) expect(run.tool.driver.rules[ruleIndex]?.id).toBe(ruleId)
    const broken = run.results.find(({ ruleId }) => ruleId === 'whole/chain-broken')
    expect(broken).toMatchObject({
      level: 'error',
      locations: [{ physicalLocation: { artifactLocation: { uri: 'runs/touched.jsonl' }, region: { startLine: 15 } } }]
    })
    expect(broken?.message.text).toContain('What to do: Compare with another copy')
  })

  it('never passes what could not be answered as an empty list', () => {
    const [run] = auditSarif({ ...report, runs: [], general: [] }).runs
    expect(run.results).toEqual([])
    expect(run.invocations[0].toolExecutionNotifications.length).toBe(report.notAnswered.length)
    expect(report.notAnswered.length).toBeGreaterThan(0)
  })

  it('is refused by the schema once it is spoilt', () => {
    const spoilt = JSON.parse(JSON.stringify(auditSarif(report)))
    spoilt.runs[0].results[0].level = 'fatal'
    expect(faultsOf(spoilt).length).toBeGreaterThan(0)
    expect(faultsOf(auditSarif(one))).toEqual([])
  })
})
