import { spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { hasPseudoTerminals, openPseudoTerminal, type PseudoTerminal } from './pseudo-terminal.js'
import { command, root } from './transcript.js'

const pump = join(root, 'packages/runner-terminal/fixtures/pump.md')

if (!hasPseudoTerminals) {
  process.stderr.write('SKIPPED: the full screen on a real pseudo-terminal; python3 with its pty module is not here.\n')
}

let cwd: string
let open: PseudoTerminal[]

beforeEach(() => {
  cwd = mkdtempSync(join(tmpdir(), 'lockwright-terminal-'))
  mkdirSync(join(cwd, 'site'))
  open = []
})
afterEach(async () => {
  for (const terminal of open) terminal.vanish()
  await Promise.all(open.map(({ gone }) => gone))
  rmSync(cwd, { recursive: true, force: true })
})

/** The built command, as a technician starts it in a window of 80 by 24. */
async function step(): Promise<PseudoTerminal> {
  const words = [process.execPath, command, 'step', pump, '--site', 'site', '--by', 'vega']
  // A build server sets CI, on which the command takes to plain lines.
  const env = { PATH: process.env['PATH'], HOME: cwd, TERM: 'xterm-256color', TZ: 'UTC' }
  const terminal = await openPseudoTerminal(words, { columns: 80, rows: 24, cwd, env })
  open.push(terminal)
  return terminal
}

/** What stands in the one journal of a site, without what differs from run to run: its name, the times, the chain. */
function journal(site = 'site') {
  const folder = join(cwd, site, 'runs')
  const [name = ''] = readdirSync(folder).filter((file) => file.endsWith('.jsonl'))
  const lines = readFileSync(join(folder, name), 'utf8').trimEnd().split('\n')
  return lines.map((line) => {
    const { by, state, event } = JSON.parse(line) as { by: string; state: string; event: { kind: string } }
    return { by, state, event }
  })
}

const recorded = (): readonly string[] => journal().map(({ event }) => event.kind)

describe.skipIf(!hasPseudoTerminals)('step on a real pseudo-terminal', () => {
  it('goes on exactly where it was after kill -9 and after the terminal is gone', async () => {
    const first = await step()
    await first.until('opened run')
    await first.until('Shaft seal')
    first.type('1 2 3 4\rgathered\r')
    await first.until('Which seal is fitted?')
    process.kill(first.pid, 'SIGKILL')
    await first.gone
    expect(recorded()).toEqual(['opened', 'done'])

    const second = await step()
    await second.until('going on with run')
    await second.until('The run was interrupted.')
    second.type('go on\r')
    await second.until('Which seal is fitted?')
    second.type('single\r')
    await second.until('Does water come out at the shaft?')
    second.vanish()
    await second.gone
    expect(recorded()).toEqual(['opened', 'done', 'resumed', 'choice'])

    const third = await step()
    await third.until('The run was interrupted.')
    third.type('\u0003')
    // The screen is given back first; what is said then stays on it.
    await third.until('\u001b[?1049l')
    await third.until('The terminal is left. The run stays open and goes on exactly here.')
    await third.gone
    expect(recorded()).toEqual(['opened', 'done', 'resumed', 'choice'])
  })

  it('leaves the same journal as the same answers on a pipe', async () => {
    const answers = [
      ['Shaft seal', '1 2 3 4'],
      ['All of it done?', 'gathered'],
      ['Which seal is fitted?', 'double'],
      ['Does water come out at the shaft?', 'note dry since Monday'],
      ['Does water come out at the shaft?', '2'],
      ['Not a seal fault', 'stopped']
    ] as const
    const terminal = await step()
    for (const [shown, line] of answers) {
      await terminal.until(shown)
      terminal.type(`${line}\r`)
    }
    await terminal.until('Stopped: locks stay on, the equipment stays out of service.')
    await terminal.gone

    mkdirSync(join(cwd, 'piped'))
    const args = [command, 'step', pump, '--site', 'piped', '--by', 'vega']
    const input = `${answers.map(([, line]) => line).join('\n')}\n`
    expect(spawnSync(process.execPath, args, { cwd, input }).status).toBe(0)
    expect(recorded()).toEqual(['opened', 'done', 'choice', 'note', 'choice', 'stopped'])
    expect(journal()).toEqual(journal('piped'))
  })
})
