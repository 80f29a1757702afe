import { spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { pumpLines } from '../../packages/runner-terminal/fixtures/pump-lines.js'
import { command, root } from '../cli/transcript.js'

const pump = join(root, 'packages/runner-terminal/fixtures/pump.md')

let cwd: string
beforeEach(() => {
  cwd = mkdtempSync(join(tmpdir(), 'lockwright-step-'))
})
afterEach(() => rmSync(cwd, { recursive: true, force: true }))

function step(args: readonly string[], lines: readonly string[] = []) {
  const input = lines.map((line) => `${line}\n`).join('')
  return spawnSync(process.execPath, [command, 'step', ...args], { cwd, input, encoding: 'utf8' })
}

describe('step --rehearse without a site', { timeout: 30_000 }, () => {
  it('goes the whole way without keys and writes nothing anywhere', () => {
    const lines = pumpLines.flatMap((line) => (line === 'start' ? [line, 'skip'] : [line]))
    const { status, stdout, stderr } = step([pump, '--rehearse', '--clock', '2026-03-02T07:00:00Z'], lines)
    expect(stderr).toContain('nothing is signed and nothing is recorded')
    expect(stdout).toContain('REHEARSAL')
    expect(stdout).toContain('Finished: the equipment is returned to service.')
    expect(status).toBe(0)
    expect(readdirSync(cwd)).toEqual([])
  })

  it('says at each step what the chosen way does, and lists the ways where there is none of that number', () => {
    const { stdout } = step([pump, '--rehearse', '--path', '4'], ['1 2 3 4', 'gathered', 'single'])
    expect(stdout).toContain('Path 4 of 6 (seal double), step 1 of 19')
    expect(stdout).toContain('Path 4 of 6, step 2 of 19: Double seal')
    expect(stdout).toMatch(/Path 4 of 6 was left at line \d+, .*: it went on by Double seal\./)
    const none = step([pump, '--rehearse', '--path', '9'])
    expect(none.status).toBe(2)
    expect(none.stderr).toMatch(/there is no path `9` to rehearse; .*\n {2}1 {2}seal single {2}\d+ steps, ends at/)
  })

  it.each([
    [['--by', 'vega'], 'give --site, or --rehearse'],
    [['--rehearse', '--site', 'site', '--by', 'vega', '--path', '1'], '--path leads along a rehearsal'],
    [['--site', 'site', '--by', 'vega', '--clock', '2026-03-02T07:00:00Z'], 'a clock that stands is for a rehearsal'],
    [['--rehearse', '--clock', 'noon'], '`noon` is no time']
  ])('refuses %j', (flags, why) => {
    mkdirSync(join(cwd, 'site'), { recursive: true })
    const { status, stderr } = step([pump, ...flags])
    expect(stderr).toContain(why)
    expect(status).toBe(2)
  })
})

describe('step without a procedure', { timeout: 30_000 }, () => {
  it('lists the open runs: where each stands, what hangs, and what is to be proven again and why', () => {
    mkdirSync(join(cwd, 'site'))
    expect(step(['--site', 'site'], []).stdout).toContain('No run is open in this site.')
    step(
      [pump, '--site', 'site', '--by', 'vega'],
      [...pumpLines.slice(0, pumpLines.indexOf('read')), 'pause shift is over']
    )
    const listed = step(['--site', 'site'])
    expect(listed.stdout).toMatch(
      /1 open run, .*\n\n1\. P7-SEAL rev 2 on P-7, DRAFT\n {3}run \S+, opened \S+ by vega, paused/
    )
    expect(listed.stdout).toMatch(
      /stands at Lock out, Let the energy out of link and water \(relieve\), step \d+ of about \d+/
    )
    expect(listed.stdout).toContain('last on record: paused, shift is over, by vega')
    expect(listed.stdout).toContain('hanging: lock 17 of vega on Q1, lock 18 of vega on V1')
    expect(listed.status).toBe(0)

    const [name = ''] = readdirSync(join(cwd, 'site/runs')).filter((file) => file.endsWith('.jsonl'))
    const before = readFileSync(join(cwd, 'site/runs', name), 'utf8')
    const run = name.replace('.jsonl', '')
    const on = step(['--site', 'site', '--run', run, '--by', 'vega'], ['locks on', 'note back at it'])
    expect(on.stderr).toContain(`going on with run ${run}`)
    const after = readFileSync(join(cwd, 'site/runs', name), 'utf8')
    expect(after.startsWith(before)).toBe(true)
    expect(after).toContain('back at it')
  })
})
