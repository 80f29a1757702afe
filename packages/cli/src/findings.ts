import type { Diagnostic } from '@lockwright/language'
import { formatDiagnostic } from '@lockwright/proof'
import type { Compiled } from './compile-file.js'

/** A file and what came of it. */
export interface Checked {
  readonly file: string
  readonly bytes: Uint8Array
  readonly compiled: Compiled
}

/** Every finding of a file as a person reads it, and its verdict as the last line. */
export function findingsText({ file, bytes, compiled }: Checked): string {
  const source = new TextDecoder().decode(bytes)
  const diagnostics = inOrder(compiled.diagnostics)
  return [
    ...diagnostics.map((diagnostic, index) => `${formatDiagnostic(diagnostic, source, diagnostics.slice(0, index))}`),
    verdictLine(file, compiled)
  ].join('\n')
}

/** By place, then by id: the order in which findings are printed everywhere. */
export function inOrder(diagnostics: readonly Diagnostic[]): Diagnostic[] {
  return diagnostics.toSorted(
    (one, other) =>
      one.place.start.line - other.place.start.line ||
      one.place.start.column - other.place.start.column ||
      (one.id < other.id ? -1 : one.id > other.id ? 1 : 0)
  )
}

function verdictLine(file: string, compiled: Compiled): string {
  switch (compiled.kind) {
    case 'malformed':
      return `malformed  ${file}: ${count(compiled.diagnostics.length, 'fault')} in the text; nothing was proven.`
    case 'refused':
      return `refused    ${file}: ${count(broken(compiled), 'obligation')} not kept (${sizeOf(compiled)}).`
    case 'undecided':
      return `undecided  ${file}: ${compiled.reason}; nothing is proven (${sizeOf(compiled)}).`
    case 'proved':
      return `proved     ${file}: ${outcomes(compiled)} (${sizeOf(compiled)}).`
  }
}

type Explored = Exclude<Compiled, { readonly kind: 'malformed' }>

function broken({ report }: Explored): number {
  return report.obligations.filter(({ outcome }) => outcome === 'fails').length
}

function outcomes({ report }: Explored): string {
  const of = (wanted: string) => report.obligations.filter(({ outcome }) => outcome === wanted).length
  const waived = of('waived')
  return [
    `${count(of('holds'), 'obligation')} ${of('holds') === 1 ? 'holds' : 'hold'}`,
    `${of('does-not-arise')} ${of('does-not-arise') === 1 ? 'does' : 'do'} not arise`,
    ...(waived > 0 ? [`${waived} waived`] : [])
  ].join(', ')
}

function sizeOf({ report }: Explored): string {
  return `${count(report.states, 'state')}, ${count(report.configurations, 'configuration')} explored`
}

function count(number: number, thing: string): string {
  return `${number} ${thing}${number === 1 ? '' : 's'}`
}
