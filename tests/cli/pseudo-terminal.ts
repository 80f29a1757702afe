import { spawn, spawnSync } from 'node:child_process'
import { once } from 'node:events'
import type { Readable } from 'node:stream'
import { fileURLToPath } from 'node:url'

/** A command on a real pseudo-terminal. */
export interface PseudoTerminal {
  /** Process id of the command. */
  readonly pid: number
  readonly type: (text: string) => void
  /** Settles once the text was written behind what was waited for before; fails where the command ends first. */
  readonly until: (text: string) => Promise<void>
  /** Settles once no process of the command is left. */
  readonly gone: Promise<void>
  /** The terminal goes away, as when a window is closed or a connection is cut. */
  readonly vanish: () => void
}

/** Python's standard library opens pseudo-terminals; Node has nothing of its own for it. */
export const hasPseudoTerminals = spawnSync('python3', ['-c', 'import pty, termios']).status === 0

const helper = fileURLToPath(new URL('pseudo-terminal.py', import.meta.url))

export async function openPseudoTerminal(
  command: readonly string[],
  {
    columns,
    rows,
    cwd,
    env
  }: { readonly columns: number; readonly rows: number; readonly cwd: string; readonly env: NodeJS.ProcessEnv }
): Promise<PseudoTerminal> {
  const python = spawn('python3', [helper, String(columns), String(rows), ...command], {
    cwd,
    env,
    stdio: ['pipe', 'pipe', 'pipe', 'pipe']
  })
  const alive = python.stdio[3] as Readable
  const gone = once(alive.resume(), 'end').then(() => undefined)
  let shown = ''
  let look = (): void => undefined
  python.stdout.setEncoding('utf8').on('data', (text: string) => {
    shown += text
    look()
  })
  // Typing to a terminal that is just going away is no fault of the test.
  python.stdin.on('error', () => undefined)
  const [first] = (await once(python.stderr.setEncoding('utf8'), 'data')) as [string]
  return {
    pid: Number(first),
    type: (text) => void python.stdin.write(text),
    until: (text) =>
      new Promise((resolve, reject) => {
        look = () => {
          const at = shown.indexOf(text)
          if (at === -1) return
          shown = shown.slice(at + text.length)
          look = () => undefined
          resolve()
        }
        python.stdout.once('end', () => reject(new Error(`\`${text}\` never came:\n${shown}`)))
        look()
      }),
    gone,
    vanish: () => void python.kill('SIGKILL')
  }
}
