import type { Runs } from '@lockwright/language'
import {
  type AuditFinding,
  type AuditReport,
  type AuditVerdict,
  chartsOf,
  noneTold,
  type OverviewRow,
  overviewOf,
  type RunAudit,
  type SiteTable,
  siteTablesOf,
  stateOfRun,
  tellRoot,
  visible
} from '@lockwright/records'
import type { Block, Cell, TableBlock } from '../blocks/block.js'
import { moment } from '../text/moment.js'
import { paragraph, say, sayNamed, stress } from '../text/say.js'
import type { ReportBlock } from './report-block.js'

/** More runs than this are not each given a row where nothing is to be said of them. */
const mostRows = 500

const asks = {
  whole: 'Is it whole?',
  followed: 'Was the procedure followed?',
  fit: 'Were people and readings fit?',
  timely: 'Do the times make sense?',
  due: 'What has to be seen to now?'
} as const

/** The audit as it is printed: verdicts, what hangs, charts, and every finding. The story of each run is left to the page. */
export function auditBlocks(report: AuditReport): readonly ReportBlock[] {
  return [
    heading(1, `Audit of ${report.site}`),
    table(
      [
        ['About this audit', 1],
        ['', 4]
      ],
      factsOf(report).map(([label, value]) => [cell(label), cell(value)])
    ),
    { kind: 'panel', heading: 'What this report says', lines: [say(report.caution)] },
    heading(2, 'Verdicts'),
    ...overviewBlocks(report),
    ...siteTablesOf(report).flatMap((one) => [heading(2, visible(one.title)), siteTable(one)]),
    ...chartBlocks(report),
    ...generalBlocks(report),
    ...report.runs.filter(({ answer }) => answer !== 'good').flatMap(runBlocks),
    ...lines('What could not be answered', report.notAnswered),
    ...lines('What this audit cannot see', report.limits)
  ]
}

function factsOf(report: AuditReport): readonly (readonly [string, string])[] {
  const { root, roster, asked } = report
  const filters = [
    asked.since === null ? '' : `since ${asked.since}`,
    asked.equipment === null ? '' : `equipment ${asked.equipment}`,
    asked.person === null ? '' : `person ${asked.person}`
  ].filter((one) => one !== '')
  return [
    ['Made', moment(report.at)],
    ['Root key', root === null ? 'none: no roster could be read' : `${root.thumbprint}, ${tellRoot(root)}`],
    [
      'Roster',
      roster === null ? 'none' : `${roster.serial}, signed ${moment(roster.signedAt)}, ${roster.people} on it`
    ],
    ['Runs told', String(report.runs.length)],
    ...(filters.length === 0 ? [] : [['Asked for', filters.join(', ')] as const]),
    ...asked.leftOut.map(({ why, runs }) => ['Left out', `${runs} that ${why}`] as const),
    ...(asked.covered === null
      ? []
      : [
          [
            'Not read again',
            `${asked.covered.runs}, covered by ${asked.covered.checkpoint}${asked.covered.kept === null ? '' : `, kept ${moment(asked.covered.kept)}`}`
          ] as const
        ])
  ]
}

function overviewBlocks(report: AuditReport): readonly Block[] {
  const all = overviewOf({ ...report, scope: 'site' })
  if (all.length === 0) return [{ kind: 'content', content: paragraph(say(noneTold(report))) }]
  const shown = all.length > mostRows ? all.filter(({ verdict }) => verdict !== 'good') : all
  const left = all.length - shown.length
  const heads = [
    ['Run', 5],
    ['Verdict', 3],
    ['Whole', 3],
    ['Followed', 3],
    ['Fit', 3],
    ['Timely', 3],
    ['Due', 3],
    ['State', 3.6],
    ['Procedure', 4]
  ] as const
  return [
    ...(left === 0
      ? []
      : [
          {
            kind: 'content',
            content: paragraph(say(`${left} runs that are good throughout have no row here.`))
          } as const
        ]),
    table(heads, shown.map(overviewRow))
  ]
}

function overviewRow({ run, verdict, saysVerdict, answers, state, procedure }: OverviewRow): readonly Cell[] {
  const said = (text: string, grave: boolean): Cell => [grave ? stress(text.toLowerCase()) : say(text)]
  return [
    cell(run),
    said(saysVerdict, verdict !== 'good'),
    ...answers.map((one) => said(one.says, one.answer === 'findings')),
    cell(state),
    cell(procedure)
  ]
}

function chartBlocks(report: AuditReport): readonly ReportBlock[] {
  const charts = chartsOf(report)
  return charts.length === 0
    ? []
    : [heading(2, 'Charts'), ...charts.map((chart) => ({ kind: 'chart' as const, chart }))]
}

function generalBlocks({ general }: AuditReport): readonly Block[] {
  return general.length === 0
    ? []
    : [heading(2, 'The records as a whole'), ...general.flatMap((one) => verdictBlocks(one, true))]
}

function runBlocks(run: RunAudit): readonly Block[] {
  const { summary, title, equipment, verdicts } = run
  const about = [
    title ?? 'Machine not at hand',
    equipment ?? summary?.equipment ?? 'equipment not known',
    summary === null ? '' : `${summary.procedure}, revision ${summary.revision}`,
    summary === null
      ? ''
      : `opened ${moment(summary.openedAt)} by ${summary.openedBy}, last entry ${moment(summary.lastAt)}`,
    stateOfRun(run)
  ].filter((part) => part !== '')
  return [
    heading(2, `Run ${visible(run.run)}`),
    { kind: 'content', content: paragraph(say(visible(`${about.join('; ')}.`))) },
    ...verdicts.filter(({ answer }) => answer !== 'good').flatMap((one) => verdictBlocks(one, false))
  ]
}

function verdictBlocks({ question, answer, findings, checked }: AuditVerdict, all: boolean): readonly Block[] {
  const says = { good: 'good', findings: 'FINDINGS', 'cannot-tell': 'cannot tell' }[answer]
  return [
    heading(3, `${asks[question]} ${says}`),
    ...(all && checked.length > 0
      ? [{ kind: 'content', content: checked.flatMap((one) => paragraph(say(visible(one)))) } as const]
      : []),
    ...(findings.length === 0 ? [] : [findingsTable(findings)])
  ]
}

function findingsTable(findings: readonly AuditFinding[]): TableBlock {
  return table(
    [
      ['Finding', 3],
      ['Where', 3],
      ['What, why it matters, what to do', 8]
    ],
    findings.map(({ id, weight, where, also, what, danger, mend }) => [
      [stress(id), say(weight)],
      cell(where),
      [
        sayNamed(visible(also.length === 0 ? what : `${what} The same of ${also.length} more.`)),
        labelled('Why it matters: ', danger),
        labelled('What to do: ', mend)
      ]
    ])
  )
}

function labelled(label: string, text: string): Runs {
  return [...stress(label), ...sayNamed(visible(text))]
}

function siteTable({ heads, rows }: SiteTable): Block {
  if (rows.length === 0) return { kind: 'content', content: paragraph(say('None.')) }
  return table(
    heads.map(
      (head, column) =>
        [head, Math.min(16, Math.max(9, head.length, ...rows.map((row) => row[column]?.length ?? 0)))] as const
    ),
    rows.map((row) => row.map((text) => cell(/^\d{4}-\d\d-\d\dT[\d:.]+Z$/.test(text) ? moment(text) : text)))
  )
}

function lines(title: string, sentences: readonly string[]): readonly Block[] {
  return sentences.length === 0
    ? []
    : [heading(2, title), { kind: 'content', content: sentences.flatMap((one) => paragraph(sayNamed(visible(one)))) }]
}

function cell(text: string): Cell {
  return [say(visible(text))]
}

function heading(level: 1 | 2 | 3, text: string): Block {
  return { kind: 'heading', level, text: visible(text) }
}

function table(
  columns: readonly (readonly [head: string, share: number])[],
  rows: readonly (readonly Cell[])[]
): TableBlock {
  return { kind: 'table', columns: columns.map(([head, share]) => ({ head, share })), rows, writing: false }
}
