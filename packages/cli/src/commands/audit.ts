import { statSync } from 'node:fs'
import { dirname, resolve } from 'node:path'
import { allGood, audit, formatAuditHtml, formatAuditText, openSite, systemClock } from '@lockwright/records'
import { type ExitCode, exit } from '../exit.js'
import { fromRecords } from '../from-records.js'
import { CannotRun } from '../read-input.js'
import { sayJson, sayLine, sayNote } from '../say.js'
import { writeOutput } from '../write-output.js'

export interface AuditFlags {
  readonly trusted?: string
  readonly html?: string
  readonly format: 'text' | 'json'
}

export function auditRecords(target: string, flags: AuditFlags): ExitCode {
  const found = statSync(target, { throwIfNoEntry: false })
  if (found === undefined) throw new CannotRun(`cannot read ${target}: there is no such file or folder.`)
  const folder = found.isDirectory() ? target : dirname(dirname(resolve(target)))
  const report = audit({
    site: fromRecords(openSite(folder)),
    ...(found.isDirectory() ? {} : { run: resolve(target) }),
    ...(flags.trusted === undefined ? {} : { trusted: flags.trusted }),
    clock: systemClock
  })
  if (flags.html !== undefined) {
    writeOutput(flags.html, formatAuditHtml(report))
    sayNote(`wrote ${flags.html}`)
  }
  if (flags.format === 'json') sayJson(report)
  else sayLine(formatAuditText(report))
  return allGood(report) ? exit.well : exit.findings
}
