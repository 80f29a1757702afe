import type { Diagnostic, NonEmpty, Related } from './diagnostic.js'
import { type FaultId, faultDangers } from './fault-dangers.js'
import type { Place } from './place.js'
import { LIMITS } from './scan/limits.js'

/** Everything that is wrong with one file, gathered while it is read. */
export class Faults {
  private readonly found: Diagnostic[] = []

  /** `what` and `mend` are full sentences; why it is dangerous follows from the id. */
  add(id: FaultId, place: Place, what: string, mend: string, related: readonly Related[] = []): void {
    if (this.full) return
    const danger = faultDangers[id]
    this.found.push({ id, severity: 'error', place, what, danger, mend, related, path: [] })
  }

  /** Whether so many were found that no more are kept: only the first of them are listed in any case. */
  get full(): boolean {
    return this.found.length >= 5 * LIMITS.faults
  }

  /** All of them, by line, column and id, each said once; undefined where there are none. */
  sorted(): NonEmpty<Diagnostic> | undefined {
    const ordered = [...this.found].sort(
      (left, right) =>
        left.place.start.offset - right.place.start.offset ||
        compare(left.id, right.id) ||
        compare(left.what, right.what)
    )
    const [first, ...rest] = ordered.filter((fault, index) => !same(fault, ordered[index - 1]))
    if (first === undefined) return undefined
    const [behind] = rest.splice(LIMITS.faults - 1)
    return behind === undefined ? [first, ...rest] : [first, ...rest, moreFaults(behind)]
  }
}

function moreFaults({ place }: Diagnostic): Diagnostic {
  const what = `From here on there are more faults than are listed: ${LIMITS.faults.toLocaleString('en')} are.`
  const danger = faultDangers['too-many-faults']
  return {
    id: 'too-many-faults',
    severity: 'error',
    place,
    what,
    danger,
    mend: 'Mend what is listed first.',
    related: [],
    path: []
  }
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
