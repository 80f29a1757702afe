import { bad, good, type RecordsResult } from '../result.js'
import { locksCovered, sheetsCovered } from './hanging-now.js'
import type { KeptAudit } from './kept.js'
import type { AuditReport } from './report.js'
import { logFile, type StoreLog } from './store-log.js'

/** What the auditor takes home from this audit; a fault where there is nothing that could be relied on next time. */
export function keepAudit(report: AuditReport, log: StoreLog): RecordsResult<KeptAudit> {
  const { signed, kept } = log
  if (report.scope === 'run' || report.asked.leftOut.length > 0) {
    return refused('only some of the runs were audited', 'Audit all of them, without filters.')
  }
  if (log.found.length > 0) {
    return refused('the site log has findings', 'See to what stands under `whole` of the records as a whole first.')
  }
  if (signed === null) {
    return refused(
      'no checkpoint was ever signed over this log, or the one that was is not of it',
      'Have one signed with `log checkpoint` (of a shared store: `store checkpoint`), and audit again.'
    )
  }
  const runs = [...(kept?.runs ?? [])]
  for (const [run, { number }] of log.leaves) if (number < signed.size) runs.push(run)
  const isCovered = new Set(runs)
  const answers = { good: 0, findings: 0, cannotTell: 0, ...kept?.answers }
  for (const { run, answer } of report.runs) {
    if (isCovered.has(run)) answers[answer === 'cannot-tell' ? 'cannotTell' : answer] += 1
  }
  return good({
    format: 'lockwright-kept/1',
    at: report.at,
    checkpoint: signed.note,
    answers,
    // By the order of their code units, which is that of `toSorted`.
    runs: runs.toSorted(),
    locks: locksCovered(log, signed.size),
    sheets: sheetsCovered(log, signed.size)
  })
}

function refused(why: string, mend: string): RecordsResult<never> {
  return bad({
    id: 'nothing-to-keep',
    file: logFile,
    what: `Nothing was kept of this audit: ${why}.`,
    danger: 'The next audit would go by it instead of by the records.',
    mend
  })
}
