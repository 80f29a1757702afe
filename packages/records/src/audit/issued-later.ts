import type { Evidence } from './evidence.js'

const minute = 60_000

/** Whether the machine was issued only after the run was opened. A sheet tells its times to the minute. */
export function issuedLater({ issue, summary }: Pick<Evidence, 'issue' | 'summary'>): boolean {
  if (issue === null || summary === null) return false
  const issued = Date.parse(issue.at)
  return Date.parse(summary.openedAt) < (summary.onPaper ? Math.floor(issued / minute) * minute : issued)
}
