import { readFileSync } from 'node:fs'
import { formatDiagnostic } from '@lockwright/proof'
import { type Answers, readAnswers } from '@lockwright/runner-terminal'
import { CannotRun, readInput, whyNot } from './read-input.js'

/** A file of answers, or a `CannotRun` with every fault of it. */
export function answersFrom(file: string): Answers {
  const source = readInput(file).toString('utf8')
  const read = readAnswers(source, file)
  if (read.ok) return read.value
  const faults = read.diagnostics.map((diagnostic) => formatDiagnostic(diagnostic, source))
  throw new CannotRun(`${file} cannot be used; nothing was answered.\n\n${faults.join('\n\n')}`)
}

/** A passphrase from `env:NAME` or `file:PATH`, as `passphrase-from` of an answer says. */
export function passphraseFrom(
  from: string
): { readonly ok: true; readonly value: string } | { readonly ok: false; readonly why: string } {
  const [, kind, name] = /^(env|file):(.+)$/.exec(from) ?? []
  if (name === undefined) return { ok: false, why: `\`${from}\` does not say where a passphrase is.` }
  if (kind === 'env') {
    const value = process.env[name]
    return value === undefined ? { ok: false, why: `The variable ${name} is not set.` } : { ok: true, value }
  }
  try {
    return { ok: true, value: readFileSync(name, 'utf8').replace(/\r?\n$/, '') }
  } catch (error) {
    return { ok: false, why: `The file ${name} cannot be read: ${whyNot(error)}.` }
  }
}
