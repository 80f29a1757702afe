import {
  chooseShell,
  type Ended,
  plainStreams,
  type RunPort,
  type SessionOptions,
  stepInPlainLines,
  stepOnFullScreen,
  tellEnded
} from '@lockwright/runner-terminal'
import { sayNote } from '../say.js'

/** Steps a run on the whole screen, or in plain lines where the terminal or the flags ask for them. */
export async function onTerminal(
  run: RunPort,
  session: SessionOptions,
  { plain }: { readonly plain?: true }
): Promise<Ended> {
  const { stdin, stdout, env } = process
  if (plain !== true && chooseShell(stdin, stdout, env) === 'full-screen') {
    const ended = await stepOnFullScreen(run, { ...session, stdin, stdout, env })
    sayNote(tellEnded(ended, run))
    return ended
  }
  const { close, ...streams } = plainStreams({ input: stdin, output: stdout }, session.now)
  try {
    return await stepInPlainLines(run, { ...session, ...streams })
  } finally {
    close()
  }
}
