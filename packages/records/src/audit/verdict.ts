import type { AuditFinding, AuditVerdict, Question } from './report.js'

/** A finding before its question is answered; `where` and `also` are filled in by `verdictOn`. `file`: another than the one that is looked at. */
export type Found = Omit<AuditFinding, 'where' | 'also' | 'file'> & { readonly file?: string }

/** A fault speaks against the record; a doubt says that something is missing that would be needed to call it good. */
export function verdictOn(
  question: Question,
  found: readonly Found[],
  checked: readonly string[],
  where: (seq: number | null) => string,
  file: string
): AuditVerdict {
  const ordered = found.toSorted((a, b) => (a.seq ?? Number.MAX_SAFE_INTEGER) - (b.seq ?? Number.MAX_SAFE_INTEGER))
  const findings = grouped(ordered).map(([first, also]) => ({
    ...first,
    also,
    file: first.file ?? file,
    where: first.file === undefined ? where(first.seq) : first.seq === null ? first.file : `${first.file}:${first.seq}`
  }))
  const faults = findings.some((finding) => finding.weight === 'fault')
  return { question, answer: faults ? 'findings' : findings.length > 0 ? 'cannot-tell' : 'good', findings, checked }
}

/** Each finding once, with the further entries of which the very same is to be said: one cause, told in one place. */
function grouped(ordered: readonly Found[]): readonly (readonly [Found, readonly number[]])[] {
  const groups = new Map<string, [Found, number[]]>()
  for (const one of ordered) {
    const said = JSON.stringify([one.id, one.weight, one.file ?? '', one.what, one.danger, one.mend])
    const group = groups.get(said)
    if (group === undefined) groups.set(said, [one, []])
    else if (one.seq !== null) group[1].push(one.seq)
  }
  return [...groups.values()]
}

/** `1 entry`, `3 entries`. */
export function count(amount: number, one: string, many = `${one}s`): string {
  return `${amount} ${amount === 1 ? one : many}`
}

/** `4 to 26, 30` of numbers in their order. */
export function spansOf(numbers: readonly number[]): string {
  const spans: [number, number][] = []
  for (const number of numbers) {
    const last = spans.at(-1)
    if (last !== undefined && number <= last[1] + 1) last[1] = number
    else spans.push([number, number])
  }
  return spans.map(([from, to]) => (from === to ? `${from}` : `${from} to ${to}`)).join(', ')
}
