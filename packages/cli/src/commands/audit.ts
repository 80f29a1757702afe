import {
  type AuditReport,
  type AuditRequest,
  allGood,
  auditAndKeep,
  auditSarif,
  auditSchema,
  formatAuditCsv,
  formatAuditHtml,
  formatAuditText,
  formatHangingText,
  formatKept,
  systemClock
} from '@lockwright/records'
import { type ExitCode, exit } from '../exit.js'
import { fromRecords } from '../from-records.js'
import { CannotRun, readInput } from '../read-input.js'
import { sayJson, sayLine, sayNote } from '../say.js'
import { version } from '../version.js'
import { writeOutput } from '../write-output.js'
import { auditTarget } from './audit-target.js'

export interface AuditFlags {
  readonly site?: string
  readonly trusted?: string
  readonly checkpoint?: string
  readonly keptSince?: string
  readonly keep?: string
  readonly newOnly?: true
  readonly since?: string
  readonly equipment?: string
  readonly person?: string
  readonly hanging?: true
  readonly brief?: true
  readonly html?: string
  readonly pdf?: string
  readonly csv?: string
  readonly paper: 'a4' | 'letter'
  readonly format: 'text' | 'json' | 'csv' | 'sarif' | 'schema'
}

export async function auditRecords(target: string, flags: AuditFlags): Promise<ExitCode> {
  if (flags.format === 'schema') {
    sayJson(auditSchema)
    return exit.well
  }
  const { report, kept } = await reportOf(target, flags)
  if (flags.html !== undefined) write(flags.html, formatAuditHtml(report))
  if (flags.csv !== undefined) write(flags.csv, formatAuditCsv(report))
  if (flags.pdf !== undefined) {
    const { printAudit } = await import('@lockwright/runner-paper')
    write(flags.pdf, await printAudit(report, { paper: flags.paper }))
  }
  tell(report, flags)
  if (flags.keep !== undefined) write(flags.keep, formatKept(fromRecords(kept)))
  if (flags.hanging === true) return report.hanging.length === 0 ? exit.well : exit.findings
  return allGood(report) ? exit.well : exit.findings
}

async function reportOf(target: string, flags: AuditFlags): ReturnType<typeof auditAndKeep> {
  const { since, equipment, person, trusted, checkpoint, keptSince, newOnly } = flags
  for (const [name, day] of [
    ['--since', since],
    ['--kept-since', keptSince]
  ] as const) {
    if (day !== undefined && Number.isNaN(Date.parse(day))) {
      throw new CannotRun(`${name} ${day} is no day. Give it as 2026-03-02.`)
    }
  }
  if (keptSince !== undefined && checkpoint === undefined) {
    throw new CannotRun('--kept-since needs --checkpoint: it says since when you have that.')
  }
  if (flags.hanging === true && [since, equipment, person].some((filter) => filter !== undefined)) {
    throw new CannotRun(
      '--hanging shows every lock that is on, whoever hung it and whenever: --since, --equipment and --person do not go with it.'
    )
  }
  if (newOnly === true && checkpoint === undefined) {
    throw new CannotRun('--new-only needs --checkpoint: it leaves out the runs which that covers.')
  }
  const given = checkpoint === undefined ? null : readInput(checkpoint).toString('utf8')
  if (keptSince !== undefined && given?.startsWith('{') === true) {
    throw new CannotRun(`--kept-since is for a bare checkpoint: ${checkpoint} has its own date in it.`)
  }
  const { store, ...which } = await auditTarget(target, flags.site)
  const request: AuditRequest = {
    store,
    ...which,
    clock: systemClock,
    stories: flags.brief !== true && flags.hanging !== true,
    ...(trusted === undefined ? {} : { trusted }),
    ...(since === undefined ? {} : { since }),
    ...(equipment === undefined ? {} : { equipment }),
    ...(person === undefined ? {} : { person }),
    ...(given === null ? {} : { checkpoint: given }),
    ...(keptSince === undefined ? {} : { keptSince }),
    ...(newOnly === true ? { newOnly } : {})
  }
  try {
    return await auditAndKeep(request)
  } finally {
    await store.close()
  }
}

function tell(report: AuditReport, flags: AuditFlags): void {
  switch (flags.format) {
    case 'json':
      sayJson(flags.hanging === true ? { at: report.at, hanging: report.hanging } : report)
      return
    case 'sarif':
      sayJson(auditSarif(report, { version }))
      return
    case 'csv':
      process.stdout.write(formatAuditCsv(report))
      return
    case 'schema':
      return
    case 'text':
      sayLine(flags.hanging === true ? formatHangingText(report) : formatAuditText(report))
  }
}

function write(file: string, content: string | Uint8Array): void {
  writeOutput(file, content)
  sayNote(`wrote ${file}`)
}
