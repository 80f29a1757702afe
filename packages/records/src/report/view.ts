import type { AuditReport, AuditVerdict, Question, RunAudit } from '../audit/report.js'
import { count, spansOf } from '../audit/verdict.js'
import { visible } from '../visible.js'
import { chartsOf } from './charts/charts-of.js'
import { viewOfChart } from './charts/view-of-chart.js'
import { locksOf, markOf, overviewLines, overviewOf, says, stateOfRun } from './overview.js'
import { alignedLines, siteTablesOf } from './site-tables.js'
import { tellRoot } from './tell-root.js'

const asks: Record<Question, string> = {
  whole: 'Is it whole?',
  followed: 'Was the procedure followed?',
  fit: 'Were people and readings fit?',
  timely: 'Do the times make sense?',
  due: 'What has to be seen to now?'
}

/** All that a template may show, with every value written out so that nothing hides in it. */
export function viewOf(report: AuditReport) {
  const overview = showAll(overviewOf(report))
  return showAll({
    overview,
    overviewLines: overview.length === 0 ? [] : overviewLines(overview),
    overviewOf: countsOf(report),
    site: report.site,
    at: report.at,
    root: report.root === null ? 'none: no roster could be read' : report.root.thumbprint,
    rootFrom: report.root === null ? '' : tellRoot(report.root),
    roster:
      report.roster === null
        ? 'none'
        : `${report.roster.serial}, signed ${report.roster.signedAt}, ${report.roster.people} on it`,
    asked: askedFor(report),
    none: report.runs.length === 0 ? noneTold(report) : '',
    tables: siteTablesOf(report).map((table) => ({ ...table, lines: alignedLines(table) })),
    general: report.general.map(viewOfVerdict),
    charts: chartsOf(report).map(viewOfChart),
    notAnswered: report.notAnswered,
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
    mark: markOf(run),
    state: stateOfRun(run),
    opened: summary === null ? 'not known' : `${summary.openedAt} by ${summary.openedBy}`,
    last: summary?.lastAt ?? 'not known',
    issuedFor: summary?.mode === 'issued' && run.issue?.later === false,
    issue: issueOf(run),
    locks: locksOf(run),
    waivers: run.waivers,
    verdicts: run.verdicts.map(viewOfVerdict),
    entries: run.entries.map((entry) => ({
      seq: String(entry.seq),
      at: entry.at,
      by: entry.by,
      title: entry.title,
      what: entry.what,
      mark: entry.mark,
      signed:
        entry.signature === null ? '' : `${entry.signature.name}, ${entry.signature.at}: ${entry.signature.meaning}`,
      bad: entry.signature !== null && !entry.signature.good
    }))
  }
}

/** What was issued later, or not for this run, does not stand there as if it had been its ground. */
function issueOf({ issue, summary }: RunAudit): string {
  if (issue === null) return 'not issued, or its signature does not hold'
  const less = issue.reason === null ? '' : `; asks less than before, for: ${issue.reason}`
  if (issue.later) return `not issued when the run was opened; issued later, on ${issue.at}, by ${issue.name}${less}`
  const by = `${issue.name}, ${issue.at}: ${issue.meaning}${less}`
  return summary?.mode === 'issued' ? by : `the run was not opened as an issued one, though there was an issue by ${by}`
}

function countsOf({ runs }: AuditReport): string {
  const answers = runs.map(({ verdicts }) => verdicts.map((verdict) => verdict.answer))
  const found = answers.filter((five) => five.includes('findings')).length
  const doubtful = answers.filter((five) => !five.includes('findings') && five.includes('cannot-tell')).length
  return `${count(runs.length, 'run')}: ${found} with findings, ${doubtful} with something that cannot be told, ${runs.length - found - doubtful} good throughout`
}

/** What stands where a report tells of no run: there is none, or none that was asked for. */
export function noneTold({ asked }: Pick<AuditReport, 'asked'>): string {
  const left = asked.leftOut.reduce((sum, { runs }) => sum + runs, 0)
  return left === 0
    ? 'No run is on record here.'
    : `No run on record is among those that were asked for: ${count(left, 'run')} left out. Look at how the equipment and the person are written.`
}

/** What was asked for, and what was left out for it, a sentence each. */
function askedFor({ asked, runs }: AuditReport): readonly string[] {
  const { since, equipment, person, leftOut, covered } = asked
  const filters = [
    ...(since === null ? [] : [`with something in them since ${since}`]),
    ...(equipment === null ? [] : [`of equipment ${equipment}`]),
    ...(person === null ? [] : [`with ${person} in them`])
  ]
  return [
    ...(filters.length === 0 ? [] : [`Asked for runs ${filters.join(', ')}: ${count(runs.length, 'run')} told.`]),
    ...leftOut.map(
      ({ why, runs: number }) => `Left out: ${count(number, 'run')} that ${number === 1 ? singular(why) : why}.`
    ),
    ...(covered === null
      ? []
      : [
          `Not read again: ${count(covered.runs, 'run')}, covered by ${covered.checkpoint}${covered.kept === null ? '' : `, kept ${covered.kept}`}.`
        ])
  ]
}

function singular(why: string): string {
  return why.replace(/^are /, 'is ').replace(/^do not have /, 'does not have ')
}

function alsoIn(also: readonly number[]): string {
  return also.length === 0 ? '' : `The same of ${count(also.length, 'more entry', 'more entries')}: ${spansOf(also)}.`
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
      also: alsoIn(finding.also),
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
