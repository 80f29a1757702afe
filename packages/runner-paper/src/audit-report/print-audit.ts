import type { AuditReport } from '@lockwright/records'
import { english } from '../catalogs/english.js'
import type { Paper } from '../print-options.js'
import { moment } from '../text/moment.js'
import { auditBlocks } from './audit-blocks.js'
import { drawReport } from './draw-report.js'

export interface ReportOptions {
  readonly paper: Paper
}

/** The report of an audit as a PDF, in English, its charts as vector drawings. The same report gives the same bytes. */
export async function printAudit(report: AuditReport, { paper }: ReportOptions): Promise<Uint8Array> {
  const made = moment(report.at)
  return drawReport(
    auditBlocks(report),
    {
      letterhead: report.site,
      header: report.scope === 'site' ? 'All runs that were asked for' : 'One run or a few',
      fixedHeader: `Audit of ${report.site}, ${made}`,
      footer: made,
      fixedFooter: 'Says nothing of whether the work was done without danger'
    },
    { paper, title: `Audit of ${report.site}`, subject: `Audit of ${made}`, made: report.at },
    english
  )
}
