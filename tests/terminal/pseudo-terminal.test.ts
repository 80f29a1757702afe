import { spawn, spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Event } from '@lockwright/machine'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { memoryRun } from '../../packages/runner-terminal/fixtures/memory-run.js'
import { pumpLines } from '../../packages/runner-terminal/fixtures/pump-lines.js'
import { pumpMachine } from '../../packages/runner-terminal/fixtures/pump-machine.js'
import { sessionBefore } from '../../packages/runner-terminal/fixtures/session-at.js'
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

interface Line extends Record<'at' | 'seq' | 'by' | 'state', unknown> {
  readonly event: { readonly kind: string }
}

/** What the one journal of a site holds, without its name, the times and the chain. */
function journal(site: string) {
  return records(site).map(({ seq, by, state, event }) => ({ seq, by, state, event }))
}

function records(site: string) {
  const folder = join(cwd, site, 'runs')
  const [name = ''] = readdirSync(folder).filter((file) => file.endsWith('.jsonl'))
  return readFileSync(join(folder, name), 'utf8')
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line) as Line)
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

/** The state in which a journal stands, replayed. */
function journalState(site: string): string {
  const events = records(site).map(({ at, by, event }) => ({ at, by, ...event }) as unknown as Event)
  return memoryRun(pumpMachine, () => '', { events }).snapshot.state
}

/** The lines of the whole job from the first one that is typed in this state. */
function linesFrom(state: string): readonly string[] {
  const at = pumpLines.findIndex((_, index) => sessionBefore(index).run.snapshot.state === state)
  return pumpLines.slice(at)
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

  it('goes on to its finish after a kill -9 anywhere, in a wait too, and always has it on record that the locks were looked at', async () => {
    for (const last of ['gathered', 'V1 18', 'start', 'tried', '0.012 kV', '18', 'energized']) {
      const site = `played-on-${pumpLines.lastIndexOf(last)}`
      // Nothing more is typed before it dies, so that it dies there and nowhere else; with `start`, in the wait.
      const typed = pumpLines.slice(0, pumpLines.lastIndexOf(last) + 1)
      const entries = sessionBefore(typed.length).run.entries.length - (last === 'start' ? 1 : 0)
      expect(await killedOnPipe(site, typed, entries)).toBe(true)
      const before = journal(site)
      // What was only ticked and not yet recorded is asked for again; what was recorded refuses to be given twice.
      const { status, stdout } = onPipe(site, ['go on', 'locks on', ...linesFrom(journalState(site))])
      expect(stdout, site).toContain('Finished: the equipment is returned to service.')
      expect(status).toBe(0)
      const after = journal(site)
      expect(after.slice(0, before.length)).toEqual(before)
      expect(after[before.length]?.event.kind).toBe('resumed')
      expect(after.at(-1)?.event.kind).toBe('finished')
      const audit = spawnSync(process.execPath, [command, 'audit', site, '--format', 'json'], { cwd, encoding: 'utf8' })
      expect(audit.stdout).toContain('"verdicts"')
      expect(audit.stdout).not.toContain('locks-not-looked-at')
    }
  })

  it('lists the open runs in whole words in a narrow window, and asks again for one that is open elsewhere', async () => {
    const busy = await onTerminal('busy')
    await busy.until('Gather the tools')
    const list = await openPseudoTerminal([process.execPath, command, 'step', '--site', 'busy', '--by', 'vega'], {
      columns: 40,
      rows: 20,
      cwd,
      env: { PATH: process.env['PATH'], HOME: cwd, TERM: 'xterm-256color', TZ: 'UTC' }
    })
    open.push(list)
    await list.until('Go on with which?')
    list.type('1\r')
    // It says who has it, and is still there to be told another.
    await list.until('Go on with which?')
    busy.type('\u0003')
    await busy.gone
    list.type('7\r')
    await list.until('That is none of the numbers above.')
    list.type('\r')
    await list.gone
    const later = await openPseudoTerminal([process.execPath, command, 'step', '--site', 'busy', '--by', 'vega'], {
      columns: 40,
      rows: 20,
      cwd,
      env: { PATH: process.env['PATH'], HOME: cwd, TERM: 'xterm-256color', TZ: 'UTC' }
    })
    open.push(later)
    await later.until('stands at Prepare, Gather the tools,\r\n     parts and protective equipment')
    later.type('\r')
    await later.gone
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
