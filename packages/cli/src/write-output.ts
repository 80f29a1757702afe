import { mkdirSync, writeFileSync } from 'node:fs'
import { dirname } from 'node:path'
import { CannotRun, whyNot } from './read-input.js'

/** Writes a result where the caller asked for it, making the folders on the way. */
export function writeOutput(file: string, content: string | Uint8Array): void {
  try {
    mkdirSync(dirname(file), { recursive: true })
    writeFileSync(file, content)
  } catch (error) {
    throw new CannotRun(`cannot write ${file}: ${whyNot(error)}`)
  }
}
