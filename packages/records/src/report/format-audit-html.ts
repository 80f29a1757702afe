import type { AuditReport } from '../audit/report.js'
import { htmlTemplate } from './html-template.js'
import { template } from './template.js'
import { viewOf } from './view.js'

const render = template(htmlTemplate, { noEscape: false })

/** The report as one page that fetches nothing and runs nothing. */
export function formatAuditHtml(report: AuditReport): string {
  return render(viewOf(report))
}
