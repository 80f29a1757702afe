import { createHash } from 'node:crypto'
import { existsSync, readFileSync } from 'node:fs'
import { CannotRun } from './read-input.js'
import { writeOutput } from './write-output.js'

/**
 * Writes down the answers that were read out of a form. What stands there already is written over only where it was
 * written here and nobody has corrected it since: its first line bears the SHA-256 of the rest.
 */
export function writeAnswers(beside: string, answers: string): void {
  if (existsSync(beside)) {
    const stands = readFileSync(beside, 'utf8')
    const edited = headed(withoutHead(stands)) !== stands && withoutHead(stands) !== answers
    if (edited) {
      throw new CannotRun(
        `${beside} stands there already, was corrected by hand, and holds other answers than the form. Enter that file if its corrections count, or remove it.`
      )
    }
  }
  writeOutput(beside, headed(answers))
}

function headed(answers: string): string {
  return `# sha256:${createHash('sha256').update(answers).digest('hex')}\n${answers}`
}

function withoutHead(text: string): string {
  return text.replace(/^# sha256:[0-9a-f]{64}\n/, '')
}
