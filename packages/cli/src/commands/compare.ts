import { compare, formatComparison, loosens } from '@lockwright/proof'
import { type Compiled, compileFile } from '../compile-file.js'
import { type ExitCode, exit } from '../exit.js'
import { findingsText } from '../findings.js'
import { gitShow } from '../git-show.js'
import { CannotRun, readInput } from '../read-input.js'
import { sayJson, sayLine, sayNote } from '../say.js'

export interface CompareFlags {
  readonly format: 'text' | 'json'
  readonly between?: readonly string[]
}

interface Revision {
  /** As a person tells it apart. */
  readonly name: string
  readonly file: string
  readonly bytes: Buffer
}

/** Shows what changed in meaning between two files, or between two git revisions of one. */
export function compareFiles(files: readonly string[], flags: CompareFlags): ExitCode {
  const [old, next] = revisionsOf(files, flags.between)
  const before = compiled(old)
  const now = compiled(next)
  if (before === null || now === null) return exit.findings
  const comparison = compare(before.machine, now.machine, { reports: { old: before.report, next: now.report } })
  if (flags.format === 'json') sayJson({ files: { old: old.name, next: next.name }, ...comparison })
  else sayLine(formatComparison(comparison, { old: old.name, next: next.name }).trimEnd())
  return loosens(comparison) ? exit.findings : exit.well
}

function revisionsOf(files: readonly string[], between: readonly string[] | undefined): readonly [Revision, Revision] {
  const [first = '', second] = files
  if (between === undefined) {
    if (second === undefined || files.length > 2)
      throw new CannotRun('give two files, or one with --between REV1 REV2.')
    return [fromFile(first), fromFile(second)]
  }
  const [from = '', to = ''] = between
  if (files.length !== 1 || between.length !== 2) {
    throw new CannotRun('give one file, and behind it --between with two git revisions.')
  }
  return [fromGit(first, from), fromGit(first, to)]
}

function fromFile(file: string): Revision {
  return { name: file, file, bytes: readInput(file) }
}

function fromGit(file: string, revision: string): Revision {
  return { name: `${file} at ${revision}`, file, bytes: gitShow(file, revision) }
}

/** A revision that is a procedure, proved or not; null once its findings were printed. */
function compiled({ name, file, bytes }: Revision): Exclude<Compiled, { readonly kind: 'malformed' }> | null {
  const result = compileFile(file, bytes)
  if (result.kind === 'malformed') {
    sayNote(findingsText({ file: name, bytes, compiled: result }))
    return null
  }
  if (result.kind !== 'proved') sayNote(`${name} is ${result.kind}: \`lockwright check\` shows why.`)
  return result
}
