import { spawn, spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { once } from 'node:events'
import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync
} from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { command, lockwright, root } from './transcript.js'

const dist = join(root, 'packages/cli/dist')
const boosterPump = join(root, 'procedures/booster-pump-precharge.md')

let cwd: string

beforeEach(() => {
  cwd = mkdtempSync(join(tmpdir(), 'lockwright-command-'))
})

afterEach(() => rmSync(cwd, { recursive: true, force: true }))

describe('check --format json', () => {
  it('is exactly of the published shape', () => {
    const text = readFileSync(boosterPump, 'utf8').replace('::remove{restraint=earths role=qualified}\n', '')
    writeFileSync(join(cwd, 'earths-left-on.md'), text)
    const { code, said } = lockwright(['check', '--format', 'json', 'earths-left-on.md', boosterPump], { cwd })
    expect(code).toBe(1)
    const { files, ...rest } = JSON.parse(said) as { files: Record<string, unknown>[] }
    expect(rest).toEqual({})
    expect(files.map((file) => Object.keys(file))).toEqual([
      ['file', 'verdict', 'states', 'configurations', 'diagnostics'],
      ['file', 'verdict', 'states', 'configurations', 'diagnostics']
    ])
    expect(files.map(({ file, verdict }) => [file, verdict])).toEqual([
      ['earths-left-on.md', 'refused'],
      [boosterPump, 'proved']
    ])
    const diagnostics = files[0]?.['diagnostics'] as Record<string, unknown>[]
    expect(diagnostics.map(({ id }) => id)).toContain('restraints-off')
    for (const diagnostic of diagnostics) {
      expect(Object.keys(diagnostic)).toEqual([
        'id',
        'severity',
        'line',
        'column',
        'endLine',
        'endColumn',
        'what',
        'danger',
        'mend',
        'related',
        'path'
      ])
      const path = diagnostic['path'] as Record<string, unknown>[]
      expect(path.length).toBeGreaterThan(0)
      for (const step of path) expect(Object.keys(step)).toEqual(['line', 'title'])
    }
  })

  it('is JSON to the last character, also where a name could steer a terminal', () => {
    const file = 'a\u001b[2J\u202eb.md'
    writeFileSync(join(cwd, file), 'no front matter \u2028\u009b')
    const { said } = lockwright(['check', '--format', 'json', file], { cwd })
    expect(said).toMatch(/^[\u0020-\u007e\u00a0-\u2027\u2030-\u2065\u2070-\uffff]*\n$/)
    const { files } = JSON.parse(said) as { files: { file: string }[] }
    expect(files.map((one) => one.file)).toEqual([file])
  })
})

describe('the command', () => {
  it('ends without a word where its reader has gone', async () => {
    const child = spawn(process.execPath, [command, 'explain'], { cwd, stdio: ['ignore', 'pipe', 'pipe'] })
    child.stdout.destroy()
    let complaint = ''
    child.stderr.on('data', (chunk: Buffer) => {
      complaint += chunk.toString()
    })
    const [code] = (await once(child, 'close')) as [number | null]
    expect(complaint).toBe('')
    expect(code).toBe(0)
  })

  it('says in one line how to build it where it is not built', () => {
    const bin = join(cwd, 'bin/lockwright.mjs')
    mkdirSync(dirname(bin))
    copyFileSync(command, bin)
    const { status, stdout, stderr } = spawnSync(process.execPath, [bin, 'check', 'x.md'], { encoding: 'utf8' })
    expect(status).toBe(2)
    expect(stdout).toBe('')
    expect(stderr).toBe(
      'lockwright: the command is not built yet; run `npm run build` in the folder of the workspace.\n'
    )
  })

  it('is started by the root of the workspace and by its own package alike', () => {
    const bins = ['package.json', 'packages/cli/package.json'].map((path) => {
      const { bin } = JSON.parse(readFileSync(join(root, path), 'utf8')) as { bin: { lockwright: string } }
      return join(root, dirname(path), bin.lockwright)
    })
    expect(bins).toEqual([command, command])
    expect(statSync(command).mode & 0o111).not.toBe(0)
  })

  it('takes a passphrase from a file, and never from an argument', () => {
    writeFileSync(join(cwd, 'root.txt'), 'of the root key, in a file\n')
    writeFileSync(join(cwd, 'mira.txt'), 'of mira, in a file\n')
    const made = lockwright(
      ['people', 'init', '--site', 'site', '--name', 'Sandholm', '--root-passphrase-file', 'root.txt'],
      { cwd }
    )
    expect(made.code).toBe(0)
    const add = ['people', 'add', 'mira', '--name', 'Mira Holt', '--holds', 'coordinator', '--site', 'site']
    const files = ['--root-passphrase-file', 'root.txt', '--passphrase-file', 'mira.txt']
    expect(lockwright([...add, ...files], { cwd }).code).toBe(0)
    const without = lockwright(['issue', boosterPump, '--site', 'site', '--by', 'mira'], { cwd })
    expect(without).toEqual({
      code: 2,
      said: 'lockwright: the passphrase of mira is needed and there is no terminal to ask on; give --passphrase-file or set LOCKWRIGHT_PASSPHRASE.\n'
    })
    const issued = lockwright(
      ['issue', boosterPump, '--site', 'site', '--by', 'mira', '--passphrase-file', 'mira.txt'],
      { cwd }
    )
    expect(issued.code).toBe(0)
    const help = ['people add', 'people init', 'issue', 'enter', 'step'].map(
      (name) => lockwright([...name.split(' '), '--help'], { cwd }).said
    )
    expect(help.join('\n')).not.toMatch(/--(root-)?passphrase[ =]</)
  })

  it('builds the same bytes of JSON each time, whose digest is the one that is issued', () => {
    const build = () =>
      spawnSync(process.execPath, [command, 'build', boosterPump, '--as', 'json'], { encoding: 'utf8' })
    const { stdout } = build()
    expect(build().stdout).toBe(stdout)
    const digest = createHash('sha256').update(stdout.trimEnd()).digest('hex')
    const module = lockwright(['build', boosterPump, '--as', 'typescript'], { cwd }).said
    expect(module).toContain(digest)
  })
})

describe('step on a pipe', () => {
  const input = [
    'have-nothing', // no answer to the first step: asked again
    'stop the fault is gone',
    ''
  ].join('\n')

  it('steps in plain lines, keeps what was answered, and says where the journal lies', () => {
    mkdirSync(join(cwd, 'site'))
    const { code, said } = lockwright(['step', boosterPump, '--site', 'site', '--by', 'tor'], { cwd, input })
    expect(said).toContain('the run is marked DRAFT for good')
    expect(said).not.toContain('\u001b')
    expect(code).toBe(0)
    const [journal = ''] = readdirSync(join(cwd, 'site/runs'))
    const lines = readFileSync(join(cwd, 'site/runs', journal), 'utf8')
      .trimEnd()
      .split('\n')
    expect(lines.map((line) => (JSON.parse(line) as { event: { kind: string } }).event.kind)).toEqual([
      'opened',
      'stopped'
    ])
  })

  it('goes on with the run that is open, exactly where it was', () => {
    mkdirSync(join(cwd, 'site'))
    const step = (typed: string, ...flags: string[]) =>
      lockwright(['step', boosterPump, '--site', 'site', '--by', 'tor', ...flags], { cwd, input: typed })
    expect(step('note the door was open\n').code).toBe(1)
    expect(readdirSync(join(cwd, 'site/runs'))).toHaveLength(1)
    const again = step('')
    expect(again.said).toMatch(/going on with run \S+, exactly where it was/)
    expect(readdirSync(join(cwd, 'site/runs'))).toHaveLength(1)
    step('', '--new')
    expect(readdirSync(join(cwd, 'site/runs'))).toHaveLength(2)
    const unclear = step('')
    expect(unclear.code).toBe(2)
    expect(unclear.said).toContain('several runs of this procedure are open')
    expect(step('', '--run', 'no-such-run').said).toContain('there is no run `no-such-run`')
  })
})

describe('the bundle', () => {
  /** What is loaded for a command: the entry, and the chunks that it and they import before anything runs. */
  function loadedFor(entry: string, seen = new Set<string>()): Set<string> {
    if (seen.has(entry)) return seen
    seen.add(entry)
    const text = readFileSync(join(dist, entry), 'utf8')
    for (const [, to = ''] of text.matchAll(/(?:from|import)\s*"(\.[^"]+\.mjs)"/g)) {
      loadedFor(join(dirname(entry), to), seen)
    }
    return seen
  }

  it('loads neither the PDF library nor the terminal library to check a file', () => {
    const chunks = readdirSync(join(dist, 'chunks'))
    // What the command says of itself, and what it does.
    const check = chunks.filter((name) => /^check-(command-)?[A-Z0-9]+\.mjs$/.test(name))
    expect(check).toHaveLength(2)
    const entries = ['lockwright.mjs', ...check.map((name) => `chunks/${name}`)]
    const loaded = [...new Set(entries.flatMap((entry) => [...loadedFor(entry)]))]
    const texts = loaded.map((name) => ({ name, text: readFileSync(join(dist, name), 'utf8') }))
    expect(loaded.length).toBeGreaterThan(2)
    expect(
      texts.filter(({ text }) => /react\.element|yoga|pdfkit|Handlebars/.test(text)).map(({ name }) => name)
    ).toEqual([])
    expect(texts.reduce((bytes, { text }) => bytes + text.length, 0)).toBeLessThan(700_000)
    // The words are the right ones: the chunks of the other commands do hold them.
    const others = chunks.map((name) => readFileSync(join(dist, 'chunks', name), 'utf8')).join('\n')
    for (const word of ['react.element', 'yoga', 'Handlebars']) expect(others.includes(word), word).toBe(true)
  })
})
