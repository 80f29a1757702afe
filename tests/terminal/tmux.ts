import { spawnSync } from 'node:child_process'
import { randomUUID } from 'node:crypto'

/** A command in a window of tmux, and what stands on its screen. */
export interface Tmux {
  readonly screen: () => string
  /** Settles once this is on the screen and the screen has stopped changing. */
  readonly until: (text: string | RegExp) => Promise<string>
  /** Types text as it is, or one key by the name that tmux has for it. */
  readonly type: (text: string) => void
  readonly key: (name: 'Enter' | 'Escape' | 'C-c') => void
  /** Types lines as fast as a terminal takes them, each paged to its end first. */
  readonly lines: (lines: readonly string[], pages: number) => void
  readonly resize: (columns: number, rows: number) => void
  readonly close: () => void
}

export const hasTmux = spawnSync('tmux', ['-V']).status === 0

const patience = 20_000
const pause = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 30))

/** A shell of its own in a window of this size, on a tmux server of its own. */
export async function openTmux(
  columns: number,
  rows: number,
  { cwd, env }: { readonly cwd: string; readonly env: Readonly<Record<string, string>> }
): Promise<Tmux> {
  const socket = `lockwright-${randomUUID()}`
  const tmux = (...args: readonly string[]): string => {
    const { status, stdout, stderr } = spawnSync('tmux', ['-L', socket, '-f', '/dev/null', ...args], {
      encoding: 'utf8',
      cwd,
      env: { PATH: process.env['PATH'] ?? '', HOME: cwd, TERM: 'xterm-256color', LC_ALL: 'C.UTF-8', ...env }
    })
    if (status !== 0) throw new Error(`tmux ${args.join(' ')}: ${stderr}`)
    return stdout
  }
  tmux('new-session', '-d', '-x', String(columns), '-y', String(rows), 'PS1="$ " exec bash --norc --noprofile')
  const screen = (): string => tmux('capture-pane', '-p').replace(/ +$/gm, '').trimEnd()
  const settled = async (isThere: (shown: string) => boolean, what: string): Promise<string> => {
    const end = Date.now() + patience
    let before = ''
    let stood = 0
    for (;;) {
      const shown = screen()
      stood = shown === before ? stood + 1 : 0
      if (stood >= 3 && isThere(shown)) return shown
      if (Date.now() > end) throw new Error(`${what} never came:\n${shown}`)
      before = shown
      await pause()
    }
  }
  const opened: Tmux = {
    screen,
    until: (text) =>
      settled((shown) => (typeof text === 'string' ? shown.includes(text) : text.test(shown)), String(text)),
    type: (text) => void tmux('send-keys', '-l', '--', text),
    key: (name) => void tmux('send-keys', name),
    lines: (lines, pages) => {
      const page = Array.from({ length: pages }, () => 'NPage')
      const typed = lines.flatMap((line) => [
        ...(pages === 0 ? [] : ['send-keys', ...page, ';']),
        ...['send-keys', '-l', '--', line, ';', 'send-keys', 'Enter', ';']
      ])
      tmux(...typed.slice(0, -1))
    },
    resize: (width, height) => void tmux('resize-window', '-x', String(width), '-y', String(height)),
    close: () => void spawnSync('tmux', ['-L', socket, 'kill-server'])
  }
  await opened.until('$')
  return opened
}
