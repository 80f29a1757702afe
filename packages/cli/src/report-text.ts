import type { Diagnostic, PathStep } from '@lockwright/language'
import { printable } from './printable.js'
import { wrap } from './wrap.js'

const width = 100
const widestExcerpt = 140
/** A beginning that two ways share is worth a reference from so many steps on. */
const worthAReference = 3

/**
 * One diagnostic as a person reads it: where, what, the line itself, why it is dangerous, how it comes about, how to
 * mend it. `source` is the text of the file, for the excerpt. Where the way begins as that of a diagnostic `before` it
 * does, which the reader has seen already, the beginning is referred to and not repeated.
 */
export function reportText(diagnostic: Diagnostic, source: string, before: readonly Diagnostic[] = []): string {
  const { place } = diagnostic
  const parts = [
    `${diagnostic.severity} ${diagnostic.id}  ${place.file}:${place.start.line}:${place.start.column}`,
    '',
    `  ${wrap(diagnostic.what, width - 2, '  ')}`,
    '',
    ...excerpt(diagnostic, source),
    labelled('Why it is dangerous', diagnostic.danger),
    ...way(diagnostic.path, before),
    ...diagnostic.related.map(({ place: other, note }) => labelled(`See line ${other.start.line}`, note)),
    labelled('How to mend', diagnostic.mend)
  ]
  return printable(parts.join('\n'))
}

function labelled(label: string, sentence: string): string {
  return `  ${wrap(`${label}: ${sentence}`, width - 4, '    ')}`
}

function excerpt(diagnostic: Diagnostic, source: string): string[] {
  const { start, end } = diagnostic.place
  const line = source.split(/\r\n|\n|\r/, start.line)[start.line - 1]
  if (line === undefined || line.trim() === '') return []
  const last = end.line === start.line ? end.column : line.length + 1
  // A very long line is shown around the fault only.
  const from = line.length > widestExcerpt ? Math.max(0, start.column - 1 - widestExcerpt / 2) : 0
  const shown = line.slice(from, from + widestExcerpt).replaceAll('\t', ' ')
  const offset = start.column - 1 - from
  const marks = Math.max(1, Math.min(last - start.column, shown.length - offset))
  const number = String(start.line)
  return [
    `  ${number} | ${shown}`,
    `  ${' '.repeat(number.length)} | ${' '.repeat(Math.max(0, offset))}${'^'.repeat(marks)}`,
    ''
  ]
}

function way(path: readonly PathStep[], before: readonly Diagnostic[]): string[] {
  if (path.length === 0) return []
  const [known, shared] = before.reduce<readonly [Diagnostic | null, number]>(
    (best, other) => {
      const steps = sharedSteps(path, other.path)
      return steps > best[1] ? [other, steps] : best
    },
    [null, worthAReference - 1]
  )
  const skipped = known === null ? 0 : shared
  return [
    '  How it comes about:',
    ...(known === null ? [] : [`    1. to ${skipped}. as for ${known.id} on line ${known.place.start.line}, above`]),
    ...path.slice(skipped).map((step, index) => pathStep(step, skipped + index, path[skipped + index - 1]))
  ]
}

function sharedSteps(path: readonly PathStep[], other: readonly PathStep[]): number {
  const differs = path.findIndex(
    ({ line, title, ledger }, index) =>
      other[index]?.line !== line || other[index].title !== title || other[index].ledger !== ledger
  )
  return differs === -1 ? path.length : differs
}

function pathStep({ line, title, ledger }: PathStep, index: number, previous: PathStep | undefined): string {
  const head = `    ${String(index + 1).padStart(2)}. line ${line}  ${wrap(title, width - 10, '          ')}`
  if (ledger === '') return head
  const told = ledger === previous?.ledger ? '(nothing changed)' : ledger
  return `${head}\n          ${wrap(told, width - 10, '          ')}`
}
