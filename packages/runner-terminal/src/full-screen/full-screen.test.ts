import { createElement } from 'react'
import { afterEach, beforeAll, describe, expect, it, vi } from 'vitest'
import { FakeStdin, FakeStdout } from '../../fixtures/fake-terminal.js'
import { memoryRun, standingClock, vega } from '../../fixtures/memory-run.js'
import { stepLines } from '../../fixtures/plain-run.js'
import { pumpLines } from '../../fixtures/pump-lines.js'
import { pumpMachine } from '../../fixtures/pump-machine.js'
import { openSession } from '../session/session.js'
import { columnsOf } from '../text/columns.js'
import { withoutColours } from './palette.js'

beforeAll(() => {
  // Read once by the library, when it is first loaded: frames without colours can be compared.
  process.env['FORCE_COLOR'] = '0'
})
afterEach(() => {
  vi.useRealTimers()
})

async function open(columns: number, rows: number) {
  const { render } = await import('ink')
  const { FullScreen } = await import('./full-screen.js')
  const clock = standingClock()
  const run = memoryRun(pumpMachine, clock.now)
  const session = openSession(run, { person: vega, keys: null, now: clock.now, takenUp: false })
  const stdout = new FakeStdout(columns, rows)
  const stdin = new FakeStdin()
  const ended: string[] = []
  const shown = render(
    createElement(FullScreen, { session, palette: withoutColours, onEnd: (how) => ended.push(how) }),
    {
      stdout: stdout as unknown as NodeJS.WriteStream,
      stdin: stdin as unknown as NodeJS.ReadStream,
      debug: true,
      exitOnCtrlC: false,
      patchConsole: false
    }
  )
  return { run, session, stdout, stdin, clock, ended, shown }
}

function overflowing({ frames, columns, rows }: FakeStdout): readonly string[] {
  return frames.filter((frame) => {
    const lines = frame.replace(/\n$/, '').split('\n')
    return lines.length > rows - 1 || lines.some((line) => columnsOf(line) > columns)
  })
}

describe.each([
  [80, 24],
  [40, 20]
])('the full screen at %i x %i', { timeout: 20_000 }, (columns, rows) => {
  it('steps the whole job, with nothing overflowing, and leaves the same events as plain lines', async () => {
    vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] })
    const { run, session, stdout, stdin, clock, ended, shown } = await open(columns, rows)
    for (const line of pumpLines) {
      clock.pass(10)
      // What does not fit is paged through first, as a person would.
      for (let page = 0; page < 16; page++) stdin.type('\u001b[6~')
      stdin.type(`${line}\r`)
      const due = session.asked().kind === 'waiting' ? session.due() : null
      if (due === null) continue
      await stdout.until('to go')
      clock.set(due)
      vi.advanceTimersByTime(1000)
    }
    await shown.waitUntilExit()
    expect(ended).toEqual(['finished'])
    expect(overflowing(stdout)).toEqual([])
    const plain = await stepLines(pumpLines)
    const bare = (events: typeof run.events) => events.map((event) => ({ ...event, at: '' }))
    expect(bare(run.events)).toEqual(bare(plain.run.events))
  })

  it('counts down by the clock of the session from the first frame on, however long nothing counted before', async () => {
    vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] })
    const { session, stdout, stdin, clock, shown } = await open(columns, rows)
    for (const line of pumpLines.slice(0, pumpLines.indexOf('start'))) session.answer(line)
    clock.pass(105)
    stdin.type(' ')
    await stdout.until('start the wait')
    for (let page = 0; page < 16; page++) stdin.type('\u001b[6~')
    stdin.type('start\r')
    const first = await stdout.until('to go')
    expect(first).toContain('5 min to go')
    clock.pass(60)
    vi.advanceTimersByTime(1000)
    expect(await stdout.until('4 min to go')).toContain('4 min to go')
    shown.unmount()
  })

  it('goes on after a resize with what was typed', async () => {
    const { stdout, stdin, shown } = await open(columns, rows)
    await stdout.until('Prepare')
    stdin.type('hal')
    await stdout.until('> hal_')
    const before = stdout.frames.length
    stdout.resize(66, 30)
    await stdout.until(`\n${'-'.repeat(66)}\n`)
    const after = stdout.frames.slice(before)
    expect(after.at(-1)).toContain('> hal_')
    for (const frame of after) expect(Math.max(...frame.split('\n').map(columnsOf))).toBeLessThanOrEqual(66)
    shown.unmount()
  })

  it('stands a storm of resizes down to absurd sizes, takes nothing unseen, and comes back with what was typed', async () => {
    const { run, stdout, stdin, shown } = await open(columns, rows)
    await stdout.until('Prepare')
    stdin.type('hal')
    await stdout.until('> hal_')
    const before = stdout.frames.length
    const events = run.events.length
    for (let turn = 1; turn <= 200; turn++) {
      stdout.resize(1 + ((turn * 37) % 200), 1 + ((turn * 11) % 60))
      if (turn % 20 === 0) await new Promise((resolve) => setImmediate(resolve))
    }
    stdout.resize(12, 5)
    expect(await stdout.until('Window too')).not.toContain('Prepare')
    stdin.type('\r')
    stdin.type('x')
    stdout.resize(columns, rows)
    await stdout.until('> hal_')
    expect(stdout.last).toContain('Prepare')
    expect(stdout.frames.length).toBeGreaterThan(before)
    expect(run.events.length).toBe(events)
    shown.unmount()
  })

  it('is left with Ctrl-C, and the run stays open', async () => {
    const { run, stdout, stdin, ended, shown } = await open(columns, rows)
    await stdout.until('Prepare')
    stdin.type('\u0003')
    await shown.waitUntilExit()
    expect(ended).toEqual(['left'])
    expect(run.snapshot.status).toBe('running')
  })
})
