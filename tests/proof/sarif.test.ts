import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { type Diagnostic, parseProcedure } from '@lockwright/language'
import { compile } from '@lockwright/machine/lower'
import { type CheckedFile, obligations, prove, type SarifLog, sarifOf } from '@lockwright/proof'
import { Ajv } from 'ajv'
import { describe, expect, it } from 'vitest'

/**
 * Source: the JSON Schema of SARIF 2.1.0 (OASIS; the text of release rtm.5), as the npm package @microsoft/jest-sarif
 * 1.0.0-beta.0 carries it. It is written in draft 4; of what has changed since it uses `id` alone, which is left out.
 */
function schema(): Record<string, unknown> {
  const file = createRequire(import.meta.url).resolve('@microsoft/jest-sarif/package.json')
  const text = readFileSync(file.replace('package.json', 'lib/schemas/sarif-2.1.0-rtm.5.json'), 'utf8')
  expect(text).not.toMatch(/"(exclusiveMinimum|exclusiveMaximum|dependencies)"/)
  const { id, $schema, ...rest } = JSON.parse(text) as Record<string, unknown>
  expect(id).toMatch(/sarif-2\.1\.0-rtm\.5\.json$/)
  expect($schema).toBe('http://json-schema.org/draft-04/schema#')
  return rest
}

const isUri = (text: string): boolean => URL.canParse(text)
const ajv = new Ajv({
  strict: false,
  allErrors: true,
  // One of its patterns has a bracket too many, which draft 4 took and a Unicode pattern does not.
  unicodeRegExp: false,
  formats: {
    uri: isUri,
    // RFC 3986: the characters that a reference may hold, a percent sign only before two hexadecimal digits.
    'uri-reference': (text: string) => /^(?:[A-Za-z0-9\-._~:/?#[\]@!$&'()*+,;=]|%[0-9A-Fa-f]{2})*$/.test(text),
    'date-time': (text: string) => !Number.isNaN(Date.parse(text))
  }
})
const validate = ajv.compile(schema())

function faultsOf(log: unknown): readonly string[] {
  return validate(log) ? [] : (validate.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`)
}

function check(file: string, text: string): CheckedFile {
  const parsed = parseProcedure({ file, text })
  if (!parsed.ok) return { file, diagnostics: parsed.diagnostics }
  const compiled = compile(parsed.value)
  if (!compiled.ok) return { file, diagnostics: compiled.diagnostics }
  const verdict = prove(compiled.value, { file })
  return { file, diagnostics: verdict.kind === 'proved' ? verdict.notes : verdict.diagnostics }
}

const example = readFileSync(new URL('../fixtures/contract-example.md', import.meta.url), 'utf8')
const undrained = example.replace(/:::relieve\{of=water with=gauge\}\n[^\n]*\n:::\n/, '')

function refused(): CheckedFile {
  const checked = check('plants/pump 2.md', undrained)
  expect(checked.diagnostics.map(({ id }) => id)).toContain('void-proof')
  return checked
}

describe('SARIF', () => {
  it('is valid against the published schema, with findings of every sort', () => {
    const malformed = check('C:\\plants\\ä.md', `${example}\n:::wrok\n1. Reach in.\n:::\n`)
    expect(malformed.diagnostics.length).toBeGreaterThan(0)
    const advice: Diagnostic = { ...(malformed.diagnostics[0] as Diagnostic), id: 'remedy-order', severity: 'advice' }
    const log = sarifOf(
      [
        refused(),
        malformed,
        check('/plants/proved.md', example),
        { file: 'large.md', diagnostics: [advice], undecided: 'more than 10 configurations' }
      ],
      { version: '0.1.0' }
    )
    expect(faultsOf(log)).toEqual([])
    expect(log.runs[0].artifacts.map(({ location }) => location.uri)).toEqual([
      'plants/pump%202.md',
      'file:///C:/plants/%C3%A4.md',
      'file:///plants/proved.md',
      'large.md'
    ])
    expect(log.runs[0].results.at(-1)).toMatchObject({ ruleId: 'remedy-order', level: 'note' })
  })

  it('is valid of nothing at all', () => {
    expect(faultsOf(sarifOf([]))).toEqual([])
  })

  it('is refused by the schema once it is spoilt, so the schema is really asked', () => {
    const log = JSON.parse(JSON.stringify(sarifOf([refused()]))) as { runs: [{ results: [{ level: string }] }] }
    log.runs[0].results[0].level = 'fatal'
    expect(faultsOf(log).length).toBeGreaterThan(0)
    const uri = JSON.stringify(sarifOf([refused()])).replaceAll('pump%202', 'pump 2')
    expect(faultsOf(JSON.parse(uri)).length).toBeGreaterThan(0)
    expect(faultsOf({ ...sarifOf([]), more: true }).length).toBeGreaterThan(0)
  })

  it('shows the way that leads to a failure as a code flow', () => {
    const checked = refused()
    const [run] = sarifOf([checked]).runs
    checked.diagnostics.forEach((diagnostic, index) => {
      const result = run.results[index]
      expect(run.tool.driver.rules[result?.ruleIndex ?? -1]?.id).toBe(diagnostic.id)
      expect(result?.locations[0].physicalLocation.region.startLine).toBe(diagnostic.place.start.line)
      const steps = result?.codeFlows?.[0].threadFlows[0].locations ?? []
      expect(steps.map(({ location }) => location.physicalLocation.region.startLine)).toEqual(
        diagnostic.path.map(({ line }) => line)
      )
      expect(steps.map(({ state }) => state.ledger.text)).toEqual(diagnostic.path.map(({ ledger }) => ledger))
    })
    expect(run.results.some(({ codeFlows }) => codeFlows !== undefined)).toBe(true)
  })

  it('has a rule with help for every obligation, found broken or not', () => {
    const [run] = sarifOf([]).runs
    expect(run.tool.driver.rules.map(({ id }) => id)).toEqual(obligations.map(({ id }) => id))
    for (const { help, fullDescription } of run.tool.driver.rules) {
      expect(help.text).toMatch(/\nSource: .+\nWhy: .+\n/)
      expect(fullDescription.text).toMatch(/^\p{Lu}/u)
    }
  })

  it('never passes a file that was not explored to the end as one without findings', () => {
    const log: SarifLog = sarifOf([{ file: 'large.md', diagnostics: [], undecided: 'more than 10 configurations' }])
    const [invocation] = log.runs[0].invocations
    expect(invocation.executionSuccessful).toBe(false)
    expect(invocation.toolExecutionNotifications[0]?.message.text).toContain('nothing is proven')
  })
})
