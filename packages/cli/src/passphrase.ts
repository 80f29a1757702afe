import { readFileSync } from 'node:fs'
import { CannotRun, whyNot } from './read-input.js'

/** Where a passphrase may come from; never from the command line, where every user of the computer could read it. */
export interface PassphraseSource {
  /** Whose it is, as it is asked for: `passphrase of jo`. */
  readonly of: string
  readonly file: string | undefined
  /** Name of the option that gives the file, for the message. */
  readonly option: string
  /** Name of the environment variable. */
  readonly variable: string
  /** A new passphrase is asked for twice. */
  readonly isNew?: true
}

/** Whether a person types it, who may have mistyped it. */
export function isTyped({ file, variable }: PassphraseSource): boolean {
  return file === undefined && (process.env[variable] ?? '') === ''
}

/** The passphrase: from the file, else from the environment, else typed without being shown. */
export async function passphrase(source: PassphraseSource): Promise<string> {
  if (source.file !== undefined) return fromFile(source.file)
  const set = process.env[source.variable]
  if (set !== undefined && set !== '') return set
  if (!process.stdin.isTTY) {
    throw new CannotRun(
      `the ${source.of} is needed and there is no terminal to ask on; give ${source.option} or set ${source.variable}.`
    )
  }
  const typed = await typedUnseen(`${capital(source.of)}: `)
  if (source.isNew === true && (await typedUnseen(`${capital(source.of)}, once more: `)) !== typed) {
    throw new CannotRun('the two passphrases differ; nothing was changed.')
  }
  return typed
}

function fromFile(file: string): string {
  try {
    return readFileSync(file, 'utf8').replace(/\r?\n$/, '')
  } catch (error) {
    throw new CannotRun(`cannot read the passphrase from ${file}: ${whyNot(error)}`)
  }
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}

function typedUnseen(prompt: string): Promise<string> {
  const { stdin } = process
  // Before the prompt: whoever types the moment they are asked shall not see it on the screen.
  stdin.setRawMode(true)
  process.stderr.write(prompt)
  stdin.setEncoding('utf8')
  stdin.resume()
  return new Promise((resolve, reject) => {
    let typed = ''
    const end = (settle: () => void) => {
      stdin.setRawMode(false)
      stdin.pause()
      stdin.off('data', take)
      process.stderr.write('\n')
      settle()
    }
    const take = (data: string) => {
      for (const key of data) {
        if (key === '\r' || key === '\n') return end(() => resolve(typed))
        if (key === '\u0003' || key === '\u0004') return end(() => reject(new CannotRun('no passphrase was given.')))
        if (key === '\u007f' || key === '\b') typed = [...typed].slice(0, -1).join('')
        else if (key >= ' ') typed += key
      }
    }
    stdin.on('data', take)
  })
}
