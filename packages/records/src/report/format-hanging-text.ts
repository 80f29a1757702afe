import type { AuditReport } from '../audit/report.js'
import { visible } from '../visible.js'
import { alignedLines, hangingTable, openTable } from './site-tables.js'

/** What hangs now and which runs are open, as plain lines. */
export function formatHangingText(report: AuditReport): string {
  const tables = [hangingTable({ ...report, scope: 'site' }), openTable(report)].filter((table) => table !== null)
  const unknown = report.runs.filter(({ locks }) => locks === null).map(({ run }) => run)
  return [
    `${report.site}, ${report.at}`,
    ...tables.flatMap((table) => ['', table.title, ...alignedLines(table).map((line) => `  ${line}`)]),
    ...(unknown.length === 0 ? [] : ['', `Which locks hang cannot be told of: ${unknown.join(', ')}`]),
    '',
    'By the record. What hangs on the equipment only a look there shows.'
  ]
    .map(visible)
    .join('\n')
}
