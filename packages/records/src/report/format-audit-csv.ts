import type { AuditFinding, AuditReport, AuditVerdict, RunAudit } from '../audit/report.js'
import { spansOf } from '../audit/verdict.js'
import { visible } from '../visible.js'
import { markOf, stateOfRun } from './overview.js'

/** Names of the columns, in their order. */
export const auditColumns = [
  'run',
  'file',
  'procedure',
  'revision',
  'equipment',
  'mark',
  'state',
  'opened',
  'last_entry',
  'verdict',
  'whole',
  'followed',
  'fit',
  'timely',
  'due',
  'question',
  'weight',
  'finding',
  'where',
  'also_entries',
  'what',
  'why_it_matters',
  'what_to_do'
] as const

/**
 * The report as CSV (RFC 4180: a header, CRLF, quotes where they are needed): a row for each finding, and one for each
 * run that has none. Findings on the records as a whole have no run. A cell that a spreadsheet could take for a formula
 * begins with an apostrophe more than its text has; so does one that begins with an apostrophe, so that taking one off
 * gives back every text as it was. Characters that do not show are written out.
 */
export function formatAuditCsv(report: AuditReport): string {
  const rows = [
    ...report.general.flatMap((verdict) => verdict.findings.map((one) => [...noRun, ...told(verdict, one)])),
    ...report.runs.flatMap(rowsOf)
  ]
  return [auditColumns, ...rows].map((row) => `${row.map(cellOf).join(',')}\r\n`).join('')
}

const noRun = Array.from({ length: auditColumns.indexOf('question') }, () => '')
const noFinding = Array.from({ length: auditColumns.length - noRun.length }, () => '')

function rowsOf(run: RunAudit): readonly (readonly string[])[] {
  const { summary, verdicts } = run
  const head = [
    run.run,
    run.file,
    summary?.procedure ?? '',
    summary === null ? '' : String(summary.revision),
    summary?.equipment ?? '',
    markOf(run),
    stateOfRun(run),
    summary?.openedAt ?? '',
    summary?.lastAt ?? '',
    run.answer,
    ...verdicts.map(({ answer }) => answer)
  ]
  const findings = verdicts.flatMap((verdict) => verdict.findings.map((one) => [...head, ...told(verdict, one)]))
  return findings.length === 0 ? [[...head, ...noFinding]] : findings
}

function told({ question }: AuditVerdict, finding: AuditFinding): readonly string[] {
  const { weight, id, where, also, what, danger, mend } = finding
  return [question, weight, id, where, spansOf(also), what, danger, mend]
}

/** Signs with which spreadsheets begin a formula, also in their full width. */
const formula = /^['=+\-@\uFF1D\uFF0B\uFF0D\uFF20]/

function cellOf(text: string): string {
  const shown = visible(text)
  const harmless = formula.test(shown) ? `'${shown}` : shown
  return /[",\r\n]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless
}
