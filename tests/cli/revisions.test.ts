import { execFileSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { lockwright, root } from './transcript.js'

const boosterPump = readFileSync(join(root, 'procedures/booster-pump-precharge.md'), 'utf8')
const balingPress = readFileSync(join(root, 'procedures/baling-press-platen.md'), 'utf8')

let cwd: string

beforeEach(() => {
  cwd = mkdtempSync(join(tmpdir(), 'lockwright-revisions-'))
})

afterEach(() => rmSync(cwd, { recursive: true, force: true }))

function git(...args: readonly string[]): void {
  const author = ['-c', 'user.name=Test', '-c', 'user.email=test@example.invalid', '-c', 'commit.gpgsign=false']
  execFileSync('git', [...author, ...args], { cwd, stdio: 'pipe' })
}

describe('compare --between', () => {
  it('reads two git revisions of one file, and neither the file as it lies there', () => {
    const file = 'plant/pump 2.md'
    mkdirSync(join(cwd, 'plant'))
    git('init', '--quiet')
    for (const max of ['980', '990']) {
      writeFileSync(join(cwd, file), boosterPump.replace('max=980', `max=${max}`))
      git('add', '.')
      git('commit', '--quiet', '--message', `Up to ${max}`)
    }
    writeFileSync(join(cwd, file), 'not a procedure any more')
    const compared = lockwright(['compare', file, '--between', 'HEAD~1', 'HEAD', '--format', 'json'], { cwd })
    expect(compared.code).toBe(1)
    const { files, changes } = JSON.parse(compared.said) as { files: unknown; changes: { what: string }[] }
    expect(files).toEqual({ old: `${file} at HEAD~1`, next: `${file} at HEAD` })
    expect(changes.map(({ what }) => what)).toEqual([
      'Measuring, highest reading that passes: 980 V before, 990 V now.'
    ])
    expect(lockwright(['compare', file, '--between', 'HEAD', 'HEAD'], { cwd })).toEqual({
      code: 0,
      said: expect.stringContaining('Nothing changed in meaning.')
    })
    const unknown = lockwright(['compare', file, '--between', 'HEAD', 'no-such-tag'], { cwd })
    expect(unknown).toEqual({ code: 2, said: expect.stringMatching(/^lockwright: cannot read .*no-such-tag/) })
    const option = lockwright(['compare', file, '--between=--output=x', 'HEAD'], { cwd })
    expect(option.code).toBe(2)
    expect(lockwright(['compare', file, '--between', 'HEAD'], { cwd })).toEqual({
      code: 2,
      said: 'lockwright: give one file, and behind it --between with two git revisions.\n'
    })
  })
})

describe('check', () => {
  it('gives advice on the order of remedies, and proves the file all the same', () => {
    const text = balingPress
      .replace('{chance=0.5 minutes=40', '{chance=0.1 minutes=180')
      .replace('{chance=0.4 minutes=180', '{chance=0.8 minutes=40')
    writeFileSync(join(cwd, 'press.md'), text)
    const { code, said } = lockwright(['check', 'press.md'], { cwd })
    expect(code).toBe(0)
    expect(said).toMatch(/^advice remedy-order {2}press\.md:\d+:\d+\n/)
    expect(said).toMatch(/\nproved {5}press\.md/)
    writeFileSync(join(cwd, 'fixed.md'), text.replace('relock=lock-out cured', 'relock=lock-out order=fixed cured'))
    expect(lockwright(['check', 'fixed.md'], { cwd }).said).not.toContain('advice')
  })

  it('prints SARIF, with the way that leads to a failure as a code flow', () => {
    writeFileSync(join(cwd, 'earths.md'), boosterPump.replace('::remove{restraint=earths role=qualified}\n', ''))
    const { code, said } = lockwright(['check', '--format', 'sarif', 'earths.md'], { cwd })
    expect(code).toBe(1)
    const { version, runs } = JSON.parse(said) as {
      version: string
      runs: [{ results: { ruleId: string; codeFlows?: unknown[] }[] }]
    }
    expect(version).toBe('2.1.0')
    expect(runs[0].results.map(({ ruleId }) => ruleId)).toContain('restraints-off')
    expect(runs[0].results[0]?.codeFlows).toHaveLength(1)
  })
})
