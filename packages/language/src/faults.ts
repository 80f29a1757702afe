import type { Diagnostic, NonEmpty, Related, Severity } from './diagnostic.js'
import { type FaultId, faultDangers } from './fault-dangers.js'
import type { Place } from './place.js'
import { LIMITS } from './scan/limits.js'

/** Everything that is wrong with one file, gathered while it is read. */
export class Faults {
  private readonly found: Diagnostic[] = []
  private readonly doubtful: Diagnostic[] = []

  /** `what` and `mend` are full sentences; why it is dangerous follows from the id. */
  add(id: FaultId, place: Place, what: string, mend: string, related: readonly Related[] = []): void {
    if (this.full) return
    this.found.push(diagnosticOf(id, 'error', place, what, mend, related))
  }

  /** What may be meant so, and probably is not: it is told, and the file is not refused for it. */
  warn(id: FaultId, place: Place, what: string, mend: string): void {
    if (this.doubtful.length > LIMITS.faults) return
    this.doubtful.push(diagnosticOf(id, 'warning', place, what, mend, []))
  }

  /** Whether so many were found that no more are kept: only the first of them are listed in any case. */
  get full(): boolean {
    return this.found.length >= 5 * LIMITS.faults
  }

  /** All of them, by line, column and id, each said once; undefined where there are none. */
  sorted(): NonEmpty<Diagnostic> | undefined {
    const [first, ...rest] = listed(this.found)
    return first === undefined ? undefined : [first, ...rest]
  }

  /** All warnings, in the same order. */
  warnings(): readonly Diagnostic[] {
    return listed(this.doubtful)
  }
}

function diagnosticOf(
  id: FaultId,
  severity: Severity,
  place: Place,
  what: string,
  mend: string,
  related: readonly Related[]
): Diagnostic {
  return { id, severity, place, what, danger: faultDangers[id], mend, related, path: [] }
}

function listed(found: readonly Diagnostic[]): readonly Diagnostic[] {
  const ordered = [...found].sort(
    (left, right) =>
      left.place.start.offset - right.place.start.offset || compare(left.id, right.id) || compare(left.what, right.what)
  )
  const all = ordered.filter((fault, index) => !same(fault, ordered[index - 1]))
  const [behind] = all.splice(LIMITS.faults)
  if (behind === undefined) return all
  const many = LIMITS.faults.toLocaleString('en')
  const what = `From here on there are more faults than are listed: ${many} are.`
  return [
    ...all,
    diagnosticOf('too-many-faults', behind.severity, behind.place, what, 'Mend what is listed first.', [])
  ]
}

function compare(left: string, right: string): number {
  return left < right ? -1 : left > right ? 1 : 0
}

function same(left: Diagnostic, right: Diagnostic | undefined): boolean {
  return (
    right !== undefined &&
    left.id === right.id &&
    left.what === right.what &&
    left.place.start.offset === right.place.start.offset
  )
}

const longestQuote = 60
const plainName = /^[\w:.+-]*$/

/** A name or a bit of source between backticks, fit to be shown: short, and with nothing that steers a terminal. */
export function quoted(text: string): string {
  if (text.length <= longestQuote && plainName.test(text)) return `\`${text}\``
  const plain = text.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/gu, '\ufffd').replaceAll('`', "'")
  return `\`${plain.length > longestQuote ? `${plain.slice(0, longestQuote)}…` : plain}\``
}

/** `a`, `b` or `c`. */
export function oneOf(names: readonly string[]): string {
  const all = names.map((name) => quoted(name))
  const last = all.at(-1) ?? ''
  return all.length < 2 ? last : `${all.slice(0, -1).join(', ')} or ${last}`
}
