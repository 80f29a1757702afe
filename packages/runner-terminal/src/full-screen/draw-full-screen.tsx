import { render } from 'ink'
import type { Ended, Session } from '../session/session.js'
import { FullScreen } from './full-screen.js'
import { paletteOf, withoutColours } from './palette.js'

// Ctrl-C is a signal until the library reads the keys itself.
const farewells = ['SIGTERM', 'SIGHUP', 'SIGINT'] as const

/** Draws a session until it ends; how it ended. Everything of the terminal library is loaded with this module. */
export async function drawFullScreen(
  session: Session,
  {
    stdin,
    stdout,
    env
  }: { readonly stdin: NodeJS.ReadStream; readonly stdout: NodeJS.WriteStream; readonly env: NodeJS.ProcessEnv }
): Promise<Ended> {
  const palette = stdout.getColorDepth(env) === 1 ? withoutColours : paletteOf(env)
  let ended: Ended = 'input-ended'
  const onEnd = (how: Ended): void => {
    ended = how
  }
  const shown = render(<FullScreen session={session} palette={palette} onEnd={onEnd} />, {
    stdin,
    stdout,
    exitOnCtrlC: false,
    patchConsole: false
  })
  // A terminal that goes away, or a shutdown: the screen is given back and the run stays open, as with Ctrl-C.
  const leave = (): void => {
    ended = 'left'
    shown.unmount()
  }
  // A signal does not always come with it: a terminal that is gone ends the input, or fails what is written to it.
  const untie = onTerminalGone({ stdin, stdout }, leave)
  for (const signal of farewells) process.once(signal, leave)
  try {
    await shown.waitUntilExit()
  } finally {
    for (const signal of farewells) process.off(signal, leave)
    untie()
  }
  return ended
}

/**
 * Calls back once when the terminal is gone. Failed writes go on being swallowed afterwards: with nobody to read them
 * there is nothing else to do with them, and left alone they would be thrown.
 */
function onTerminalGone(
  { stdin, stdout }: { readonly stdin: NodeJS.ReadStream; readonly stdout: NodeJS.WriteStream },
  gone: () => void
): () => void {
  for (const stream of [stdout, process.stderr]) stream.on('error', gone)
  for (const event of ['end', 'close', 'error'] as const) stdin.on(event, gone)
  return () => {
    for (const event of ['end', 'close'] as const) stdin.off(event, gone)
  }
}
