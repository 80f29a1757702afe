import { spawn, spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { pumpLines } from '../../packages/runner-terminal/fixtures/pump-lines.js'
import { hasPseudoTerminals, openPseudoTerminal, type PseudoTerminal } from '../cli/pseudo-terminal.js'
import { command, root } from '../cli/transcript.js'

if (!hasPseudoTerminals) {
  process.stderr.write('SKIPPED: whole runs on a real pseudo-terminal; python3 with its pty module is not here.\n')
}

let cwd: string
let open: PseudoTerminal[]

beforeEach(() => {
  cwd = mkdtempSync(join(tmpdir(), 'lockwright-whole-run-'))
  // Nobody waits five minutes for a test.
  const pump = readFileSync(join(root, 'packages/runner-terminal/fixtures/pump.md'), 'utf8')
  writeFileSync(join(cwd, 'pump.md'), pump.replace('label-wait: 5 min', 'label-wait: 1 s'))
  open = []
})
afterEach(async () => {
  for (const terminal of open) terminal.vanish()
  await Promise.all(open.map(({ gone }) => gone))
  rmSync(cwd, { recursive: true, force: true })
})

const words = (site: string) => [command, 'step', 'pump.md', '--site', site, '--by', 'vega']

/** `before`: a module that is loaded into the process first. */
async function onTerminal(site: string, before?: string): Promise<PseudoTerminal> {
  mkdirSync(join(cwd, site), { recursive: true })
  const env = { PATH: process.env['PATH'], HOME: cwd, TERM: 'xterm-256color', TZ: 'UTC' }
  const terminal = await openPseudoTerminal(
    [process.execPath, ...(before === undefined ? [] : ['--import', before]), ...words(site)],
    { columns: 80, rows: 24, cwd, env }
  )
  open.push(terminal)
  return terminal
}

/** Each line is paged to its end first, as a person would. */
function typeLines(terminal: PseudoTerminal, lines: readonly string[]): void {
  for (const line of lines) terminal.type(`${'\u001b[6~'.repeat(4)}${line}\r`)
}

/** What the one journal of a site holds, without its name, the times and the chain. */
function journal(site: string) {
  const folder = join(cwd, site, 'runs')
  const [name = ''] = readdirSync(folder).filter((file) => file.endsWith('.jsonl'))
  return readFileSync(join(folder, name), 'utf8')
    .trimEnd()
    .split('\n')
    .map((line) => {
      const { seq, by, state, event } = JSON.parse(line) as Record<'seq' | 'by' | 'state', unknown> & {
        readonly event: { readonly kind: string }
      }
      return { seq, by, state, event }
    })
}

function onPipe(site: string, lines: readonly string[]) {
  mkdirSync(join(cwd, site), { recursive: true })
  return spawnSync(process.execPath, words(site), { cwd, input: `${lines.join('\n')}\n`, encoding: 'utf8' })
}

/** Writes lines to a run on a pipe and kills it outright once so many entries are in its journal; true where it was alive. */
async function killedOnPipe(site: string, lines: readonly string[], entries: number): Promise<boolean> {
  mkdirSync(join(cwd, site), { recursive: true })
  const child = spawn(process.execPath, words(site), { cwd, stdio: ['pipe', 'pipe', 'ignore'] })
  const over = new Promise<boolean>((resolve) => child.once('exit', (_, signal) => resolve(signal === 'SIGKILL')))
  child.stdin.on('error', () => undefined)
  child.stdout.on('data', () => {
    if (existing(site) >= entries) child.kill('SIGKILL')
  })
  child.stdin.write(`${lines.join('\n')}\n`)
  return over
}

function existing(site: string): number {
  try {
    return journal(site).length
  } catch {
    return 0
  }
}

describe.skipIf(!hasPseudoTerminals)('a whole run', { timeout: 90_000 }, () => {
  it('leaves the same journal on a real pseudo-terminal as on a pipe, but for times', async () => {
    const wait = pumpLines.indexOf('start')
    const terminal = await onTerminal('screen')
    await terminal.until('Gather the tools')
    typeLines(terminal, pumpLines.slice(0, wait + 1))
    await terminal.until('The wait is over.')
    typeLines(terminal, pumpLines.slice(wait + 1))
    await terminal.until('Finished: the equipment is returned to service.')
    await terminal.gone
    expect(onPipe('pipe', pumpLines).status).toBe(0)
    expect(journal('screen').at(-1)?.event.kind).toBe('finished')
    expect(journal('screen')).toEqual(journal('pipe'))
  })

  it('stands exactly where its last entry left it after a kill -9, wherever that was, and the next start says so', async () => {
    expect(onPipe('whole', pumpLines).status).toBe(0)
    const whole = journal('whole').map(({ by, state, event }) => ({ by, state, event }))
    for (const entries of [2, 7, 12, 19, 24]) {
      const site = `killed-${entries}`
      expect(await killedOnPipe(site, pumpLines, entries)).toBe(true)
      const got = journal(site)
      expect(got.map(({ by, state, event }) => ({ by, state, event }))).toEqual(whole.slice(0, got.length))
      expect(got.length).toBeGreaterThanOrEqual(entries)
      // The next start stands where the last entry left it, and asks for the locks before anything else.
      const next = onPipe(site, ['record'])
      expect(next.stderr).toContain('going on with run')
      expect(next.stdout).toContain('The run was interrupted.')
      expect(next.stdout).toContain('What was recorded so far')
      expect(journal(site)).toEqual(got)
    }
  })

  it.each(['SIGTERM', 'SIGHUP', 'SIGINT'] as const)(
    'gives the screen and the cursor back on %s, and stays open',
    async (signal) => {
      const terminal = await onTerminal('left')
      await terminal.until('\u001b[?1049h')
      await terminal.until('Gather the tools')
      typeLines(terminal, ['1 2 3 4', 'gathered'])
      await terminal.until('Which seal is fitted?')
      process.kill(terminal.pid, signal)
      await terminal.until('\u001b[?1049l')
      await terminal.until('\u001b[?25h')
      await terminal.until('The terminal is left.')
      await terminal.gone
      expect(journal('left').map(({ event }) => event.kind)).toEqual(['opened', 'done'])
    }
  )

  it('gives the screen back on a fault of the program, then says what it was, and has lost nothing', async () => {
    // Thrown from a signal's listener, outside of everything that could catch it.
    const before = `data:text/javascript,process.on('SIGUSR2',()=>{throw new Error('planted')})`
    const terminal = await onTerminal('fault', before)
    await terminal.until('Gather the tools')
    typeLines(terminal, ['1 2 3 4', 'gathered'])
    await terminal.until('Which seal is fitted?')
    process.kill(terminal.pid, 'SIGUSR2')
    await terminal.until('\u001b[?1049l')
    await terminal.until('this is a fault of lockwright itself')
    await terminal.until('planted')
    await terminal.gone
    expect(journal('fault').map(({ event }) => event.kind)).toEqual(['opened', 'done'])
  })
})
