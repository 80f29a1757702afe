import { tellLock } from '../audit/hanging-locks.js'
import type { AuditAnswer, AuditReport, RunAudit } from '../audit/report.js'

export const says: Record<AuditAnswer, string> = { good: 'good', findings: 'FINDINGS', 'cannot-tell': 'cannot tell' }

/** One run in a line: what an auditor looks at first. */
export interface OverviewRow {
  readonly run: string
  readonly procedure: string
  readonly state: string
  /** The gravest of the five. */
  readonly verdict: AuditAnswer
  readonly saysVerdict: string
  /** In the order of the five questions. */
  readonly answers: readonly { readonly answer: AuditAnswer; readonly says: string }[]
  readonly locks: readonly string[]
  /** Whether there is anything to tell below it. */
  readonly told: boolean
  /** Each finding in a line: its question, weight, id and where. */
  readonly reasons: readonly string[]
}

/** The runs at a glance, where the audit is of a site. */
export function overviewOf(report: AuditReport): readonly OverviewRow[] {
  if (report.scope !== 'site') return []
  return report.runs.map((run) => ({
    run: run.run,
    procedure: run.summary === null ? 'not known' : `${run.summary.procedure}, revision ${run.summary.revision}`,
    state: [stateOfRun(run), markOf(run)].filter((part) => part !== '').join(', '),
    answers: run.verdicts.map(({ answer }) => ({ answer, says: says[answer] })),
    verdict: run.answer,
    saysVerdict: says[run.answer],
    locks: locksOf(run),
    told: locksOf(run).length > 0 || reasonsOf(run).length > 0,
    reasons: reasonsOf(run)
  }))
}

/** The same as lines of text, in columns. The name of the run comes last: it is the widest. */
export function overviewLines(rows: readonly OverviewRow[]): readonly string[] {
  const cells = rows.map(({ saysVerdict, answers, state, procedure, run }) => [
    saysVerdict,
    ...answers.map((one) => one.says),
    state,
    procedure,
    run
  ])
  const heads = ['verdict', 'whole', 'followed', 'fit', 'timely', 'due', 'state', 'procedure', 'run']
  const widths = heads.map((head, column) => Math.max(head.length, ...cells.map((row) => row[column]?.length ?? 0)))
  const line = (row: readonly string[]) =>
    row.map((cell, column) => (column === row.length - 1 ? cell : cell.padEnd(widths[column] ?? 0))).join('  ')
  return [
    line(heads),
    ...rows.flatMap(({ locks, reasons }, index) => [
      line(cells[index] ?? []),
      ...reasons.map((reason) => `    ${reason}`),
      ...locks.map((lock) => `    still hanging: ${lock}`)
    ])
  ]
}

export function stateOfRun({ summary }: RunAudit): string {
  if (summary === null) return 'not known'
  const status = summary.status === 'running' ? 'open' : summary.status
  return `${status}${summary.onPaper ? ', entered from paper' : ''}`
}

export function markOf({ summary }: RunAudit): string {
  if (summary === null || summary.mode === 'issued') return ''
  return summary.mode === 'draft' ? 'DRAFT' : 'REHEARSAL'
}

/** Locks that hang by the record; of a run that is done with none are told. */
export function locksOf({ locks }: RunAudit): readonly string[] {
  return (locks ?? []).map(tellLock)
}

function reasonsOf({ verdicts }: RunAudit): readonly string[] {
  return verdicts.flatMap(({ question, findings }) =>
    findings.map(({ weight, id, where }) => `${question}: ${weight} ${id}, ${where}`)
  )
}
