import type { AuditReport } from '../audit/report.js'
import { count } from '../audit/verdict.js'

/** Where the root key is known from, as the end of a sentence. */
export function tellRoot({ from, handedOver }: NonNullable<AuditReport['root']>): string {
  if (from === 'site folder') return 'taken from the site folder'
  const [first] = handedOver
  if (first === undefined) return 'given by the auditor'
  const steps = handedOver.map(({ to, at }) => `to ${to} on ${at}`).join(', ')
  return `follows from ${first.from}, given by the auditor, by ${count(handedOver.length, 'signed handover')}: ${steps}`
}
