import type { Diagnostic, Place } from '@lockwright/language'

/** A fault of a file of answers; none of them can hurt a machine, but a wrong record can mislead whoever trusts it. */
export function fault(
  id: string,
  place: Place,
  what: string,
  mend: string,
  danger = 'An answer that nobody gave must never stand in a record.'
): Diagnostic {
  return {
    id,
    severity: 'error',
    place,
    what,
    danger,
    mend,
    related: [],
    path: []
  }
}
