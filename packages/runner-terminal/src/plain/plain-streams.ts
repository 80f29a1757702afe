import { wrap } from '../text/wrap.js'
import type { PlainIo } from './step-in-plain-lines.js'

/** What is needed of the standard streams. */
export interface PlainStreams {
  readonly input: NodeJS.ReadStream | NodeJS.ReadableStream
  readonly output: NodeJS.WritableStream
}

type StreamIo = Pick<PlainIo, 'lines' | 'write' | 'sleepUntil' | 'readSecret' | 'duringWaits'> & {
  /** Lets go of the input, so that the process can end. */
  readonly close: () => void
}

/** The plain shell on real streams. On a terminal a passphrase is not echoed and a wait can be interrupted. */
export function plainStreams({ input, output }: PlainStreams, now: () => string): StreamIo {
  const terminal = 'isTTY' in input && input.isTTY === true ? input : null
  const read = lineReader(input)
  const io: StreamIo = {
    lines: linesOf(read),
    write: (line) => {
      // A terminal breaks lines in the middle of words.
      const columns = 'columns' in output && typeof output.columns === 'number' ? output.columns : 0
      for (const part of columns > 0 ? wrap(line, columns, '  ') : [line]) output.write(`${part}\n`)
    },
    sleepUntil: (at, aborted) => sleepUntil(at, now, aborted),
    duringWaits: terminal === null ? 'hold' : 'listen',
    close: () => {
      input.pause()
    }
  }
  if (terminal === null) return io
  return {
    ...io,
    readSecret: async () => {
      terminal.setRawMode(true)
      try {
        return (await read()) ?? ''
      } finally {
        terminal.setRawMode(false)
        output.write('\n')
      }
    }
  }
}

/** Longer waits than a timer can hold, and clocks that are set meanwhile, are looked at again every so often. */
const longestNap = 30_000

/** Settles once the clock has reached the time, or when aborted. */
export async function sleepUntil(at: string, now: () => string, aborted: AbortSignal): Promise<void> {
  for (let left = remaining(); left > 0 && !aborted.aborted; left = remaining()) {
    await new Promise<void>((resolve) => {
      const timer = setTimeout(done, Math.min(left, longestNap))
      aborted.addEventListener('abort', done, { once: true })
      function done(): void {
        clearTimeout(timer)
        aborted.removeEventListener('abort', done)
        resolve()
      }
    })
  }

  function remaining(): number {
    return Date.parse(at) - Date.parse(now())
  }
}

type ReadLine = () => Promise<string | null>

async function* linesOf(read: ReadLine): AsyncGenerator<string> {
  for (let line = await read(); line !== null; line = await read()) yield line
}

/** Longer than any answer; what comes behind it on the same line is left out, so that no stream fills the memory. */
const longestLine = 10_000

/** One line at a time; null at the end. In raw mode (a passphrase) Enter, Backspace and Ctrl-C are seen to here. */
function lineReader(input: AsyncIterable<string | Buffer>): ReadLine {
  const chunks = input[Symbol.asyncIterator]()
  const decoder = new TextDecoder()
  let waiting: string[] = []
  let afterReturn = false

  const nextCharacter = async (): Promise<string | null> => {
    while (waiting.length === 0) {
      const { done, value } = await chunks.next()
      if (done === true) return null
      waiting = [...(typeof value === 'string' ? value : decoder.decode(value, { stream: true }))].reverse()
    }
    return waiting.pop() ?? ''
  }

  return async () => {
    let line = ''
    for (;;) {
      const character = await nextCharacter()
      if (character === null) return line === '' ? null : line
      // A line that ends in carriage return and line feed is one line, not a line and an empty one.
      const secondHalf = character === '\n' && afterReturn
      afterReturn = character === '\r'
      if (secondHalf) continue
      if (character === '\n' || character === '\r') return line
      if (character === '\u0003') return ''
      if (character === '\u007f' || character === '\b') line = [...line].slice(0, -1).join('')
      else if (line.length < longestLine) line += character
    }
  }
}
