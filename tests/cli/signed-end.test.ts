import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { lockwright, root } from './transcript.js'

const pump = join(root, 'packages/runner-terminal/fixtures/pump.md')
const passphrase = 'of nobody real, for tests'
const env = { LOCKWRIGHT_ROOT_PASSPHRASE: passphrase, VEGA: passphrase }

const answers = `clock: { start: 2026-03-02T07:00:00Z, pace: 1 min }
answers:
  - { at: prepare.gather, ticks: all }
  - { at: which, choose: single }
  - { at: leak, choose: "Yes, it drips" }
  - { at: tell }
  - { at: halt, stop: the pump is needed after all, sign: { passphrase-from: "env:VEGA" } }
`

let cwd: string

beforeAll(() => {
  cwd = mkdtempSync(join(tmpdir(), 'lockwright-signed-end-'))
  expect(lockwright(['people', 'init', '--site', 'site', '--name', 'Sandholm'], { cwd, env }).code).toBe(0)
  const add = ['people', 'add', 'vega', '--name', 'Vega Moen', '--site', 'site']
  expect(lockwright(add, { cwd, env: { ...env, LOCKWRIGHT_PASSPHRASE: passphrase } }).code).toBe(0)
  writeFileSync(join(cwd, 'vega.txt'), `${passphrase}\n`)
})
beforeEach(() => rmSync(join(cwd, 'site/runs'), { recursive: true, force: true }))
afterAll(() => rmSync(cwd, { recursive: true, force: true }))

/** Steps a draft with these answers and gives the exit code and what the audit says of `whole`. */
function stepped(text: string, ...flags: readonly string[]) {
  writeFileSync(join(cwd, 'answers.yaml'), text)
  const args = ['step', pump, '--site', 'site', '--by', 'vega', '--answers', 'answers.yaml', ...flags]
  const { code } = lockwright(args, { cwd, env })
  const { said } = lockwright(['audit', 'site', '--format', 'json'], { cwd })
  const { runs } = JSON.parse(said) as {
    runs: { summary: { status: string }; verdicts: { answer: string; findings: { id: string }[] }[] }[]
  }
  const whole = runs[0]?.verdicts[0]
  return [code, runs[0]?.summary.status, whole?.answer, whole?.findings.map(({ id }) => id)]
}

describe('the end of a run', () => {
  it('is signed by whoever has a key, and the audit finds the run whole', () => {
    expect(stepped(answers)).toEqual([0, 'stopped', 'good', []])
  })

  it('takes the passphrase of --by from its file where the answers do not say where it is', () => {
    const silent = answers.replace(/, sign: \{.*?\} \}/, ' }')
    expect(silent).not.toBe(answers)
    expect(stepped(silent, '--passphrase-file', 'vega.txt')).toEqual([0, 'stopped', 'good', []])
  })

  it('leaves the run open where no passphrase is to be had', () => {
    const silent = answers.replace(/, sign: \{.*?\} \}/, ' }')
    expect(stepped(silent)).toEqual([1, 'running', 'cannot-tell', ['unsigned-end']])
  })

  it('is unsigned where the answers say so, and the audit tells', () => {
    const unsigned = answers.replace(/sign: \{.*?\} \}/, 'sign: no }')
    expect(unsigned).not.toBe(answers)
    expect(stepped(unsigned)).toEqual([0, 'stopped', 'cannot-tell', ['unsigned-end']])
  })
})
