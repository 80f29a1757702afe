import type { Machine } from '@lockwright/machine'
import type { Roster } from '../roster.js'
import { daysAfter, daysOf } from './days.js'
import { inspectorFault, type Use, usersOf } from './inspector-fault.js'
import type { KeptInspection } from './sound-inspections.js'

/** A procedure that is issued: its machine as issued last, and the day of its first issue. */
export interface IssuedProcedure {
  readonly machine: Machine
  readonly digest: string
  readonly firstIssued: string
  /** Every machine of it that was issued, by digest: an inspector is held against the one that was inspected. */
  readonly machines: ReadonlyMap<string, Machine>
}

/** At least annually (29 CFR 1910.147(c)(6)(i)), taken as: no more than this many days from one to the next. */
export const inspectionDays = 365

/** Where one procedure stands on the day of the audit. */
export interface Standing {
  readonly procedure: IssuedProcedure
  readonly last: KeptInspection | null
  /** Signed and sound, but by someone who may not have inspected; each with the reason. They do not count. */
  readonly notCounted: readonly { readonly kept: KeptInspection; readonly why: string }[]
  /** Day from which is counted, how many days, and the last day on which the next is in time. */
  readonly countedFrom: string
  readonly days: number
  readonly dueOn: string
  readonly overdue: boolean
  /** Whether anyone worked by it since the day from which is counted. */
  readonly used: boolean
}

/**
 * Counts from the day of the last inspection that counts, else from the first issue. The procedure's own review period
 * rules where it is shorter than a year.
 */
export function standingOf(
  procedure: IssuedProcedure,
  inspections: readonly KeptInspection[],
  uses: readonly Use[],
  roster: Roster,
  today: string
): Standing {
  const { machine } = procedure
  const mine = inspections.filter(({ inspection }) => inspection.procedure === machine.procedure)
  const notCounted = mine.flatMap((kept) => {
    const { by, from, on, employees } = kept.inspection
    const named = employees.map(({ id }) => id)
    const inspected = procedure.machines.get(kept.inspection.machine) ?? machine
    const fault = inspectorFault(by, on, inspected, roster, usersOf(uses, from, on), named)
    if (fault !== null) return [{ kept, why: fault.why }]
    return named.length === 0 ? [{ kept, why: 'it names no employee who was included' }] : []
  })
  const counted = mine.filter((kept) => !notCounted.some((one) => one.kept === kept))
  const last = counted.reduce<KeptInspection | null>(
    (best, one) => (best === null || one.inspection.on > best.inspection.on ? one : best),
    null
  )
  const days = Math.min(inspectionDays, daysOf(machine.review) ?? inspectionDays)
  const countedFrom = last?.inspection.on ?? procedure.firstIssued.slice(0, 10)
  const dueOn = daysAfter(countedFrom, days)
  return {
    procedure,
    last,
    notCounted,
    countedFrom,
    days,
    dueOn,
    overdue: today > dueOn,
    used: usersOf(uses, countedFrom, today).size > 0
  }
}

/** How the days were counted, in words. */
export function tellCounting({ last, countedFrom, days }: Standing): string {
  const from = last === null ? `its first issue here on ${countedFrom}` : `the inspection of ${countedFrom}`
  return `${days} days from ${from}, by days in UTC`
}
