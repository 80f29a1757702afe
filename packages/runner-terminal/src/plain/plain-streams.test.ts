import { PassThrough } from 'node:stream'
import { describe, expect, it } from 'vitest'
import { plainStreams, sleepUntil } from './plain-streams.js'

const now = (): string => '2026-03-02T07:00:00.000Z'

function open(chunks: readonly (string | Buffer)[], terminal = false) {
  const input = new PassThrough()
  const output = new PassThrough()
  const raw: boolean[] = []
  const tty = Object.assign(input, { isTTY: terminal, setRawMode: (on: boolean) => raw.push(on) })
  for (const chunk of chunks) input.write(chunk)
  input.end()
  return { io: plainStreams({ input: tty, output }, now), output, raw }
}

async function linesOf(chunks: readonly (string | Buffer)[]): Promise<readonly string[]> {
  const lines: string[] = []
  for await (const line of open(chunks).io.lines) lines.push(line)
  return lines
}

describe('plainStreams', () => {
  it('takes a carriage return and a line feed for one line end, also across two chunks', async () => {
    expect(await linesOf(['stop\r', '\nno parts\r\n', '\n', 'last'])).toEqual(['stop', 'no parts', '', 'last'])
  })

  it('puts a character together that two chunks share', async () => {
    const bytes = Buffer.from('größe\n')
    expect(await linesOf([bytes.subarray(0, 3), bytes.subarray(3)])).toEqual(['größe'])
  })

  it('keeps a line that never ends from filling the memory', async () => {
    const [line] = await linesOf(['x'.repeat(50_000), '\n'])
    expect(line).toHaveLength(10_000)
  })

  it('reads a passphrase with the echo off, and turns it on again', async () => {
    const { io, output, raw } = open(['sign\n', 'hunx\u007fter\r', 'told\n'], true)
    const lines = io.lines[Symbol.asyncIterator]()
    expect((await lines.next()).value).toBe('sign')
    expect(await io.readSecret?.()).toBe('hunter')
    expect((await lines.next()).value).toBe('told')
    expect(raw).toEqual([true, false])
    expect(String(output.read())).toBe('\n')
  })

  it('holds during waits on a pipe and listens on a terminal', () => {
    expect(open([]).io.duringWaits).toBe('hold')
    expect(open([], true).io.duringWaits).toBe('listen')
  })
})

describe('sleepUntil', () => {
  it('settles at once where the time has come, and when it is aborted', async () => {
    await sleepUntil('2026-03-02T06:59:59Z', now, new AbortController().signal)
    const abort = new AbortController()
    const slept = sleepUntil('2026-03-02T08:00:00Z', now, abort.signal)
    abort.abort()
    await slept
  })
})

describe('a plain line on a terminal', () => {
  it('is broken between words', () => {
    const output = Object.assign(new PassThrough(), { columns: 20 })
    plainStreams({ input: new PassThrough(), output }, now).write('Last on record: 03/02/2026 by m.vega')
    expect(output.read().toString()).toBe('Last on record:\n  03/02/2026 by\n  m.vega\n')
  })
})
