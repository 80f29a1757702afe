import { spawnSync } from 'node:child_process'
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'

export const root = join(dirname(fileURLToPath(import.meta.url)), '../..')
export const command = join(root, 'packages/cli/bin/lockwright.mjs')

export interface Spoken {
  readonly code: number | null
  /** Standard output and standard error as they came, in one. */
  readonly said: string
}

/** Runs the built command as a user would. */
export function lockwright(
  args: readonly string[],
  {
    cwd,
    env = {},
    input = '',
    flags = []
  }: {
    readonly cwd: string
    readonly env?: NodeJS.ProcessEnv
    readonly input?: string
    /** For Node itself, before the command. */
    readonly flags?: readonly string[]
  }
): Spoken {
  const { status, stdout, error } = spawnSync(
    'sh',
    ['-c', 'exec "$@" 2>&1', 'sh', process.execPath, ...flags, command, ...args],
    {
      cwd,
      input,
      encoding: 'utf8',
      env: { PATH: process.env['PATH'], HOME: cwd, NO_COLOR: '1', TERM: 'dumb', TZ: 'UTC', ...env }
    }
  )
  if (error !== undefined) throw error
  return { code: status, said: stdout }
}

/**
 * Runs every command of a Markdown transcript and gives the transcript with what was really said. A block
 * ```` ```markdown file=NAME ```` (or `yaml`) is written to a file first; in a block ```` ```console ```` each line
 * that begins with `$ ` is a command and what follows it is its output. A last line `(exit code N)` stands where N
 * is not 0. All of it happens in one folder that is made for the purpose and holds the library `procedures/`.
 */
export function replayed(markdown: string): string {
  const cwd = mkdtempSync(join(tmpdir(), 'lockwright-transcript-'))
  try {
    cpSync(join(root, 'procedures'), join(cwd, 'procedures'), { recursive: true })
    mkdirSync(join(cwd, 'examples/demo'), { recursive: true })
    cpSync(join(root, 'examples/demo/answers.yaml'), join(cwd, 'examples/demo/answers.yaml'))
    return markdown.replace(
      /^(`{3,})(markdown file=(\S+)|yaml file=(\S+)|console)\n([\s\S]*?)^\1$/gm,
      (
        block: string,
        fence: string,
        kind: string,
        page: string | undefined,
        data: string | undefined,
        body: string
      ) => {
        const file = page ?? data
        if (file !== undefined) {
          writeFileSync(join(cwd, file), body)
          return block
        }
        return `${fence}${kind}\n${session(body, cwd)}${fence}`
      }
    )
  } finally {
    rmSync(cwd, { recursive: true, force: true })
  }
}

/** Everybody in a transcript has the same one; it comes from the environment, as it may, and stands on no page. */
const passphrases = {
  LOCKWRIGHT_ROOT_PASSPHRASE: 'for transcripts only',
  LOCKWRIGHT_PASSPHRASE: 'for transcripts only'
}

/**
 * The sheets on these pages are dated 2 March 2026, and what they were worked with was issued before. So it is issued
 * with the clock of the computer set to the day before, as the README says.
 */
function clockFor([command]: readonly string[]): {
  readonly flags: readonly string[]
  readonly env: NodeJS.ProcessEnv
} {
  if (command !== 'issue') return { flags: [], env: {} }
  const setClock = pathToFileURL(join(root, 'examples/demo/set-clock.mjs')).href
  return { flags: ['--import', setClock], env: { DEMO_CLOCK: '2026-03-01T08:00:00Z' } }
}

function session(body: string, cwd: string): string {
  return body
    .split('\n')
    .filter((line) => line.startsWith('$ '))
    .map((line) => {
      const { env, args } = parsed(line.slice(2))
      const clock = clockFor(args)
      const { code, said } = lockwright(args, {
        cwd,
        flags: clock.flags,
        env: { ...passphrases, ...clock.env, ...env }
      })
      const end = said === '' || said.endsWith('\n') ? '' : '\n'
      return `${line}\n${masked(said.replaceAll(cwd, '.'))}${end}${code === 0 ? '' : `(exit code ${code})\n`}`
    })
    .join('\n')
}

/** `NAME=value ... npx lockwright argument "argument with spaces" ...` */
function parsed(line: string): { readonly env: NodeJS.ProcessEnv; readonly args: readonly string[] } {
  const words = [...line.matchAll(/(?:[^\s"']|"[^"]*"|'[^']*')+/g)].map(([word]) =>
    word.replace(/"([^"]*)"|'([^']*)'/g, '$1$2')
  )
  const start = words.indexOf('lockwright')
  if (start === -1) throw new Error(`a transcript runs lockwright alone, not: ${line}`)
  const env = words.slice(0, start).flatMap((word) => {
    const [, name, value] = /^([A-Z_]+)=(.*)$/.exec(word) ?? []
    return name === undefined ? [] : [[name, value] as const]
  })
  return { env: Object.fromEntries(env), args: words.slice(start + 1) }
}

/** What differs from run to run: the clock, new keys, names of runs and files kept with them. The day of issue stays. */
function masked(said: string): string {
  return (
    said
      .replace(/\b(2026-03-01T08:00):[\d.]+Z/g, '$1Z')
      .replace(/\b20(?!26-03-0[12])\d\d-\d\d-\d\dT[\d:.]+Z/g, '<now>')
      .replace(/(?<=\broot )[A-Za-z0-9+/]{43}=/g, '<hash>')
      .replace(/(?<![A-Za-z0-9_-])[A-Za-z0-9_-]{43}(?![A-Za-z0-9_-])/g, '<thumbprint>')
      .replace(/\b20\d{6}(-[a-z0-9-]+)-[0-9a-f]{8}\b/g, '<run$1>')
      // Of a sheet that was printed just now; the one in the examples of the help stays.
      .replace(/(?<=\b[Ss]heet )(?!7M2-PSZ3)[0-9A-Z]{3}-[0-9A-Z]{4}\b/g, '<serial>')
  )
}
