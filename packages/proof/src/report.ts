import { type Diagnostic, faultDangers, type PathStep, type Place } from '@lockwright/language'
import { columnsOf, fitted, printable, reportWidth, wrapped } from './columns.js'
import { obligations } from './obligations/index.js'

/** More steps than this are shortened to the first few and the last; the numbers stay. */
const longestPath = 14
const firstSteps = 3
const lastSteps = 9

/**
 * One diagnostic as text for a terminal or a build log, no line wider than 100 columns where words allow it, without
 * colours and without anything that a terminal obeys. `sourceText` is the file that the diagnostic's place speaks of;
 * `told` are the diagnostics that the reader has seen before this one.
 */
export function formatDiagnostic(diagnostic: Diagnostic, sourceText: string, told: readonly Diagnostic[] = []): string {
  const { id, severity, what, danger, mend, related } = diagnostic
  const place = shownPlace(diagnostic.place, sourceText)
  const from = diagnostic.place.start.line
  const path = diagnostic.path.map((step) => (step.line === from ? { ...step, line: place.start.line } : step))
  const { line, column } = place.start
  const lines = [
    `${severity} ${printable(id)}  ${printable(place.file)}:${line}:${column}`,
    '',
    ...paragraph(what),
    '',
    ...excerpt(place, sourceText),
    '',
    ...titled('Why it is dangerous', danger)
  ]
  if (path.length > 0) lines.push('', '  How it comes about:', ...walk(path, told))
  lines.push('', ...titled('How to mend', mend))
  for (const other of related) {
    lines.push(
      '',
      ...titled('See also', `line ${other.place.start.line}. ${other.note}`),
      '',
      ...excerpt(other.place, sourceText)
    )
  }
  if (isExplained(id)) lines.push('', `  More: lockwright explain ${id}`)
  return `${lines.map((text) => text.trimEnd()).join('\n')}\n`
}

/** Obligations and findings about the text have a page; what another reader of files found may have none. */
function isExplained(id: string): boolean {
  return obligations.some((obligation) => obligation.id === id) || Object.hasOwn(faultDangers, id)
}

/** The implied finish stands behind the last character: it is shown at the end of the last line with words on it. */
function shownPlace(place: Place, sourceText: string): Place {
  const { start } = place
  const last = lastWrittenLine(sourceText)
  if (start.line <= last || start.line !== place.end.line || start.column !== place.end.column) return place
  const end = { line: last, column: lineAt(sourceText, last).trimEnd().length + 1, offset: sourceText.trimEnd().length }
  return { ...place, start: end, end }
}

function lastWrittenLine(text: string): number {
  return text.trimEnd().split(/\r\n|\n|\r/u).length
}

function paragraph(text: string): readonly string[] {
  return wrapped(text, reportWidth - 2).map((line) => `  ${line}`)
}

function titled(title: string, text: string): readonly string[] {
  return [`  ${title}:`, ...wrapped(text, reportWidth - 4).map((line) => `    ${line}`)]
}

/** The line that the place begins on, with carets under the place. */
function excerpt({ start, end }: Place, sourceText: string): readonly string[] {
  const gutter = ` ${start.line} | `
  const written = lineAt(sourceText, start.line)
  const from = Math.min(start.column - 1, written.length)
  const until = end.line === start.line ? Math.max(end.column - 1, from) : written.length
  const room = reportWidth - gutter.length - 2
  const cut = clipped(written, from, until, room)
  const carets = Math.max(1, columnsOf(cut.marked))
  return [
    `  ${gutter}${cut.before}${cut.marked}${cut.after}`,
    `  ${' '.repeat(gutter.length - 2)}| ${' '.repeat(columnsOf(cut.before))}${'^'.repeat(carets)}`
  ]
}

/** As much of the line as fits, the marked stretch in it; `...` stands for what is left out at either end. */
function clipped(written: string, from: number, until: number, room: number) {
  // Slices first: a line may be as long as the whole file.
  const fits = written.length <= room && columnsOf(printable(written)) <= room
  const begin = fits || until <= room - 3 ? 0 : Math.max(0, from - Math.floor(room / 3))
  const before = (begin > 0 ? '...' : '') + printable(written.slice(begin, from))
  const meant = printable(written.slice(from, Math.min(until, from + room)))
  const marked = fits ? meant : fitted(meant, room - columnsOf(before) - 3)
  if (marked.length < meant.length) return { before, marked, after: '...' }
  const rest = printable(written.slice(until, until + room))
  const left = room - columnsOf(before) - columnsOf(marked)
  const after = columnsOf(rest) <= left && until + room >= written.length ? rest : `${fitted(rest, left - 3)}...`
  return { before, marked, after }
}

/** The text of one line, from 1, without its ending; empty behind the last line. */
function lineAt(text: string, line: number): string {
  const ending = /\r\n|\n|\r/gu
  for (let passed = 1; passed < line; passed += 1) if (ending.exec(text) === null) return ''
  const begin = ending.lastIndex
  const next = ending.exec(text)
  return text.slice(begin, next === null ? text.length : next.index)
}

/** A beginning that two ways share is worth a reference from so many steps on. */
const worthAReference = 3

/** The way, with the beginning that an earlier diagnostic has told already left to that one. */
function walk(path: readonly PathStep[], told: readonly Diagnostic[]): readonly string[] {
  const numbered = path.map((step, index) => ({ ...step, number: index + 1, news: newsOf(path, index) }))
  const [known, shared] = told.reduce<readonly [Diagnostic | null, number]>(
    (best, other) => {
      const count = sharedSteps(path, other.path)
      return count > best[1] ? [other, count] : best
    },
    [null, worthAReference - 1]
  )
  if (known !== null) {
    const rest = numbered.slice(Math.min(shared, path.length - 1))
    const first = `    1 to ${path.length - rest.length}. as for ${printable(known.id)} on line ${known.place.start.line}, above`
    return [first, ...steps(rest)]
  }
  if (path.length <= longestPath) return steps(numbered)
  const first = numbered.slice(0, firstSteps)
  const last = numbered.slice(-lastSteps)
  const all = [...first, ...last]
  const indent = ' '.repeat(6 + String(path.length).length)
  return [
    ...steps(first, all),
    `${indent}... steps ${firstSteps + 1} to ${path.length - lastSteps} ...`,
    ...steps(last, all)
  ]
}

function sharedSteps(path: readonly PathStep[], other: readonly PathStep[]): number {
  const differs = path.findIndex(
    ({ line, title, ledger }, index) =>
      other[index]?.line !== line || other[index].title !== title || other[index].ledger !== ledger
  )
  return differs === -1 ? path.length : differs
}

/** The ledger at the first and the last step; between them what the step changed in it, if anything. */
function newsOf(path: readonly PathStep[], index: number): string {
  const ledger = path[index]?.ledger ?? ''
  const previous = path[index - 1]?.ledger
  if (previous === undefined || index === path.length - 1) return ledger
  const known = previous.split('; ')
  return ledger
    .split('; ')
    .filter((part) => !known.includes(part))
    .join('; ')
}

type Numbered = PathStep & { readonly number: number; readonly news: string }

/** Each step as a line or more: number, line and title, and below them the ledger. `all` gives the widths. */
function steps(some: readonly Numbered[], all: readonly Numbered[] = some): readonly string[] {
  const numberColumns = Math.max(...all.map((step) => String(step.number).length))
  const lineColumns = Math.max(...all.map((step) => String(step.line).length))
  return some.flatMap((step) => {
    const head = `    ${String(step.number).padStart(numberColumns)}. line ${String(step.line).padEnd(lineColumns)}  `
    const below = step.news === '' ? [] : hanging(' '.repeat(head.length), step.news)
    return [...hanging(head, step.title), ...below]
  })
}

function hanging(head: string, text: string): readonly string[] {
  return wrapped(text, reportWidth - head.length).map(
    (line, index) => (index === 0 ? head : ' '.repeat(head.length)) + line
  )
}
