import type { AuditFinding, AuditVerdict, Question } from './report.js'

/** A finding before its question is answered; `where` is filled in by `verdictOn`. */
export type Found = Omit<AuditFinding, 'where'>

/** A fault speaks against the record; a doubt says that something is missing that would be needed to call it good. */
export function verdictOn(
  question: Question,
  found: readonly Found[],
  checked: readonly string[],
  where: (seq: number | null) => string
): AuditVerdict {
  const findings = found
    .map((one) => ({ ...one, where: where(one.seq) }))
    .toSorted((a, b) => (a.seq ?? Number.MAX_SAFE_INTEGER) - (b.seq ?? Number.MAX_SAFE_INTEGER))
  const faults = findings.some((finding) => finding.weight === 'fault')
  return { question, answer: faults ? 'findings' : findings.length > 0 ? 'cannot-tell' : 'good', findings, checked }
}

/** `1 entry`, `3 entries`. */
export function count(amount: number, one: string, many = `${one}s`): string {
  return `${amount} ${amount === 1 ? one : many}`
}
