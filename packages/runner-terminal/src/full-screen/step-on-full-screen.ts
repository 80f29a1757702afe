import type { RunPort } from '../run-port.js'
import { type Ended, openSession, type SessionOptions } from '../session/session.js'

type DrawFullScreen = typeof import('./draw-full-screen.js').drawFullScreen

export interface FullScreenIo extends SessionOptions {
  readonly stdin: NodeJS.ReadStream
  readonly stdout: NodeJS.WriteStream
  readonly env: NodeJS.ProcessEnv
}

// Not every terminal gives an empty second page: what stood there would show through the first frame.
const enterScreen = '\u001b[?1049h\u001b[2J\u001b[H'
/** With the cursor, which the library hides. */
const leaveScreen = '\u001b[?1049l\u001b[?25h'

/** Steps a run on the whole screen, on the terminal's second page: what was there before comes back at the end. */
export async function stepOnFullScreen(run: RunPort, io: FullScreenIo): Promise<Ended> {
  // The library below looks at FORCE_COLOR alone, once, when it is loaded.
  if ((io.env['NO_COLOR'] ?? '') !== '') io.env['FORCE_COLOR'] = '0'
  const drawFullScreen = await loadFullScreen()
  const session = openSession(run, io)
  io.stdout.write(enterScreen)
  // What ends the process without coming back here, a fault of the program above all, gives the screen back too, before
  // anything is said of it; and once alone, or what was said would be written over.
  let given = false
  const giveBack = (): void => {
    if (!given) io.stdout.write(leaveScreen)
    given = true
  }
  process.once('uncaughtExceptionMonitor', giveBack)
  process.once('exit', giveBack)
  try {
    return await drawFullScreen(session, io)
  } finally {
    process.off('uncaughtExceptionMonitor', giveBack)
    process.off('exit', giveBack)
    giveBack()
  }
}

/**
 * The layout library reads its own bytes through `fetch` where there is one, and the first look at that loads a whole
 * network library, which the first frame would wait for; without it, it decodes them by itself.
 */
async function loadFullScreen(): Promise<DrawFullScreen> {
  const fetch = Object.getOwnPropertyDescriptor(globalThis, 'fetch')
  Object.defineProperty(globalThis, 'fetch', { value: undefined, configurable: true, writable: true })
  try {
    return (await import('./draw-full-screen.js')).drawFullScreen
  } finally {
    if (fetch !== undefined) Object.defineProperty(globalThis, 'fetch', fetch)
  }
}
