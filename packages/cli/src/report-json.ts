import type { Diagnostic, Place } from '@lockwright/language'

/** A diagnostic as `check --format json` spells it. */
export interface ReportedDiagnostic {
  readonly id: string
  readonly severity: Diagnostic['severity']
  readonly line: number
  readonly column: number
  readonly endLine: number
  readonly endColumn: number
  readonly what: string
  readonly danger: string
  readonly mend: string
  readonly related: readonly {
    readonly line: number
    readonly column: number
    readonly endLine: number
    readonly endColumn: number
    readonly note: string
  }[]
  readonly path: readonly { readonly line: number; readonly title: string }[]
}

export function reportJson(diagnostic: Diagnostic): ReportedDiagnostic {
  return {
    id: diagnostic.id,
    severity: diagnostic.severity,
    ...flat(diagnostic.place),
    what: diagnostic.what,
    danger: diagnostic.danger,
    mend: diagnostic.mend,
    related: diagnostic.related.map(({ place, note }) => ({ ...flat(place), note })),
    path: diagnostic.path.map(({ line, title }) => ({ line, title }))
  }
}

function flat(place: Place): { line: number; column: number; endLine: number; endColumn: number } {
  return {
    line: place.start.line,
    column: place.start.column,
    endLine: place.end.line,
    endColumn: place.end.column
  }
}
