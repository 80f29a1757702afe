import type { PersonId } from '@lockwright/machine'
import { bad, good, type RecordsResult } from '../result.js'
import type { Roster } from '../roster.js'
import { nameOf } from './hanging-locks.js'
import { locksCovered, sheetsCovered } from './hanging-now.js'
import type { KeptAudit } from './kept.js'
import type { SignedNow } from './kept-signed.js'
import type { AuditReport } from './report.js'
import { logFile, type StoreLog } from './store-log.js'
import { laterRemoval, type TakenOff } from './taken-off.js'

/** What the auditor takes home from this audit; a fault where there is nothing that could be relied on next time. */
export function keepAudit(
  report: AuditReport,
  log: StoreLog,
  off: readonly TakenOff[],
  roster: Roster | null,
  now: SignedNow
): RecordsResult<KeptAudit> {
  const { signed, kept } = log
  if (report.scope === 'run' || report.asked.leftOut.length > 0) {
    return refused('only some of the runs were audited', 'Audit all of them, without filters.')
  }
  if (log.found.length > 0) {
    return refused('the site log has findings', 'See to what stands under `whole` of the records as a whole first.')
  }
  const { 'people.yaml': people, ...lists } = now
  if (people === undefined) return refused('there is no sound roster', 'Put the roster back.')
  if (report.general.some(({ findings }) => findings.some(({ id }) => id === 'put-back'))) {
    return refused(
      'the roster or the list of instruments is older than the one that was kept',
      'Put the newest one back.'
    )
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
    signed: { 'people.yaml': people, ...lists },
    // By the order of their code units, which is that of `toSorted`.
    runs: runs.toSorted(),
    // What a run that is not covered took off is told again next time, from its journal.
    locks: locksCovered(log, signed.size).filter((left) => {
      const by = nameOf(left.by as PersonId, roster)
      const covered = off.filter(({ run }) => isCovered.has(run))
      return laterRemoval({ ...left, by }, covered, roster) === null
    }),
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
