import type { AuditAnswer, AuditReport, AuditVerdict, Question, RunAudit } from '../audit/report.js'
import { visible } from '../visible.js'

const asks: Record<Question, string> = {
  whole: 'Is it whole?',
  followed: 'Was the procedure followed?',
  fit: 'Were people and readings fit?',
  timely: 'Do the times make sense?'
}

const says: Record<AuditAnswer, string> = { good: 'good', findings: 'FINDINGS', 'cannot-tell': 'cannot tell' }

/** All that a template may show, with every value written out so that nothing hides in it. */
export function viewOf(report: AuditReport) {
  return showAll({
    site: report.site,
    at: report.at,
    root: report.root === null ? 'none: no roster could be read' : report.root.thumbprint,
    rootFrom:
      report.root === null
        ? ''
        : report.root.from === 'auditor'
          ? 'given by the auditor'
          : 'taken from the site folder',
    roster:
      report.roster === null
        ? 'none'
        : `${report.roster.serial}, signed ${report.roster.signedAt}, ${report.roster.people} on it`,
    none: report.runs.length === 0,
    runs: report.runs.map(viewOfRun),
    limits: report.limits,
    caution: report.caution
  })
}

function viewOfRun(run: RunAudit) {
  const { summary } = run
  return {
    run: run.run,
    file: run.file,
    title: run.title ?? 'Machine not at hand',
    equipment: run.equipment ?? summary?.equipment ?? 'not known',
    procedure: summary === null ? 'not known' : `${summary.procedure}, revision ${summary.revision}`,
    digest: summary?.machine ?? 'not known',
    mark: summary === null || summary.mode === 'issued' ? '' : summary.mode === 'draft' ? 'DRAFT' : 'REHEARSAL',
    state: summary === null ? 'not known' : `${summary.status}${summary.onPaper ? ', entered from paper' : ''}`,
    opened: summary === null ? 'not known' : `${summary.openedAt} by ${summary.openedBy}`,
    last: summary?.lastAt ?? 'not known',
    issue:
      run.issue === null
        ? 'not issued, or its signature does not hold'
        : `${run.issue.name}, ${run.issue.at}: ${run.issue.meaning}${run.issue.reason === null ? '' : `; asks less than before, for: ${run.issue.reason}`}`,
    waivers: run.waivers,
    verdicts: run.verdicts.map(viewOfVerdict),
    entries: run.entries.map((entry) => ({
      seq: String(entry.seq),
      at: entry.at,
      by: entry.by,
      title: entry.title,
      what: entry.what,
      signed:
        entry.signature === null ? '' : `${entry.signature.name}, ${entry.signature.at}: ${entry.signature.meaning}`,
      bad: entry.signature !== null && !entry.signature.good
    }))
  }
}

function viewOfVerdict(verdict: AuditVerdict) {
  return {
    question: verdict.question,
    asks: asks[verdict.question],
    answer: verdict.answer,
    says: says[verdict.answer],
    checked: verdict.checked,
    findings: verdict.findings.map((finding) => ({
      id: finding.id,
      weight: finding.weight,
      seq: finding.seq === null ? '' : String(finding.seq),
      where: finding.where,
      what: finding.what,
      danger: finding.danger,
      mend: finding.mend
    }))
  }
}

export type AuditView = ReturnType<typeof viewOf>

/** Every text in a value made visible; the rest as it is. */
function showAll<Value>(value: Value): Value {
  if (typeof value === 'string') return visible(value) as Value
  if (Array.isArray(value)) return value.map(showAll) as Value
  if (typeof value === 'object' && value !== null) {
    return Object.fromEntries(Object.entries(value).map(([name, one]) => [name, showAll(one)])) as Value
  }
  return value
}
