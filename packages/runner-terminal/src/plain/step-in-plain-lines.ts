import type { RunPort } from '../run-port.js'
import { type Ended, openSession, type Reply, type SessionOptions } from '../session/session.js'
import { tellEnded } from '../session/tell-ended.js'
import { visible } from '../text/visible.js'
import { tellHeading, tellScreen, toldNothing } from './tell-screen.js'

/** A pipe, a dumb terminal, a screen reader: lines in, lines out. */
export interface PlainIo extends SessionOptions {
  /** What is typed, line by line; asked for one line at a time. */
  readonly lines: AsyncIterable<string>
  /** One visible line, without its line break. */
  readonly write: (line: string) => void
  /** Settles at that time (RFC 3339) by the clock of `now`, or once `aborted`. */
  readonly sleepUntil: (at: string, aborted: AbortSignal) => Promise<void>
  /** A typed line is read without being shown; without it, passphrases come as plain lines. */
  readonly readSecret?: () => Promise<string>
  /**
   * `listen`: lines are read while a wait runs, so that a person can note, pause or stop.
   * `hold`: the next line is read once the wait is over, so that a pipe need not know how long it takes.
   */
  readonly duringWaits: 'listen' | 'hold'
}

/** Steps a run to where it ends, is paused or left, or no more is typed: then it stands open, exactly here. */
export async function stepInPlainLines(run: RunPort, io: PlainIo): Promise<Ended> {
  const session = openSession(run, io)
  const typed = lineSource(io.lines[Symbol.asyncIterator]())
  const write = (line: string): void => io.write(visible(line))
  let told = toldNothing
  let ended: Ended | null = null
  for (const line of tellHeading(session.screen())) write(line)
  const show = (reply: Reply): void => {
    for (const line of reply.said) write(line)
    if (reply.page !== null) for (const line of ['', reply.page.title, ...reply.page.lines, '']) write(line)
    ended = reply.ended
  }
  while (ended === null) {
    const screen = session.screen()
    const tell = tellScreen(screen, told, io.now())
    told = tell.told
    for (const line of tell.lines) write(line)
    const next = await nextThing(session.due(), screen.secret)
    switch (next.kind) {
      case 'due':
        show(session.passTime())
        break
      case 'line':
        show(session.answer(next.line))
        break
      case 'end':
        ended = 'input-ended'
    }
  }
  write(tellEnded(ended, run))
  return ended

  async function nextThing(due: string | null, secret: boolean): Promise<Next> {
    if (secret && io.readSecret !== undefined) return { kind: 'line', line: await io.readSecret() }
    if (due === null) return typed.take(await typed.peek())
    const abort = new AbortController()
    const clock = io.sleepUntil(due, abort.signal).then((): Next => ({ kind: 'due' }))
    // The clock of a rehearsal need not come to the end by itself: a line sets it on.
    const holds = io.duringWaits === 'hold' && io.skipTo === undefined
    if (holds && session.asked().kind === 'waiting') return clock
    const first = await Promise.race([clock, typed.peek()])
    abort.abort()
    return first.kind === 'due' ? first : typed.take(first)
  }
}

type Next = { readonly kind: 'line'; readonly line: string } | { readonly kind: 'due' } | { readonly kind: 'end' }

/** Lines that are asked for once: one that loses a race against the clock stays to be taken later. */
function lineSource(lines: AsyncIterator<string>) {
  let pending: Promise<Next> | null = null
  return {
    peek: (): Promise<Next> => {
      pending ??= lines
        .next()
        .then(({ done, value }) => (done === true ? { kind: 'end' } : { kind: 'line', line: value }))
      return pending
    },
    take: (next: Next): Next => {
      pending = null
      return next
    }
  }
}
