import type { AuditReport } from '../audit/report.js'
import { template } from './template.js'
import { textTemplate } from './text-template.js'
import { viewOf } from './view.js'

const render = template(textTemplate, { noEscape: true })

/** The report as plain lines. Characters that do not show are written out, so nothing in it can steer a terminal. */
export function formatAuditText(report: AuditReport): string {
  return render(viewOf(report))
}
