import { CannotRun } from './read-input.js'

interface Written<Card> {
  readonly card: Card & { readonly pass: number; readonly place: number }
  /** What stands in the field; null: nothing. */
  readonly written: string | null
  /** When the wait of the step was over, as it stands in the field; null: nothing, or no wait. */
  readonly ended?: string | null
  /** Seconds by which the step began before what is written. */
  readonly wait: number
  /** For messages: which step it is. */
  readonly told?: string
}

/** By which clock a sheet was filled in. */
export interface SheetClock {
  /** Day on which the work began, `2026-03-04`. */
  readonly day: string
  /** `+01:00`; null: the time zone of this computer. */
  readonly zone: string | null
}

const minute = 60_000
const day = 24 * 60 * minute

/**
 * When each step was done, RFC 3339 in UTC, in the order in which they were done. A sheet says hours and minutes of the
 * clock on the wall: they count from the day on which the work began, and where they run back by half a day or more, it was
 * past midnight. A step without a time has that of the step before it on the sheet.
 */
export function sheetTimes<Card>(
  steps: readonly Written<Card>[],
  clock: SheetClock
): readonly { readonly card: Written<Card>['card']; readonly at: string; readonly ended: string | null }[] {
  let last: number | null = null
  const timed = steps.map((step) => {
    const written: number = step.written === null ? (last ?? midnight(clock)) : timeOf(step.written, clock)
    const whole: number = pastMidnight(written, last)
    const time: number = whole - step.wait * 1000
    if (step.wait > 0 && last !== null && time < last) throw new CannotRun(noRoom(step, last, whole))
    const ended: number | null = step.ended == null ? null : pastMidnight(timeOf(step.ended, clock), whole)
    last = Math.max(whole, ended ?? whole)
    return { ...step, time, ended }
  })
  const inOrder = timed.toSorted((a, b) => a.time - b.time || a.card.pass - b.card.pass || a.card.place - b.card.place)
  return inOrder.map(({ card, ended, time }) => ({
    card,
    at: spelled(time),
    ended: ended === null ? null : spelled(ended)
  }))
}

/** A time of the wall clock that lies after `since` (RFC 3339), as RFC 3339 in UTC. */
export function clockTime(written: string, since: string, clock: SheetClock): string {
  const from = Date.parse(since)
  return spelled(pastMidnight(timeOf(written, clock), Number.isNaN(from) ? null : from))
}

/** Two clock times on either side of midnight lie most of a day apart. */
function pastMidnight(written: number, last: number | null): number {
  return last !== null && last - written > day / 2 ? written + day * Math.ceil((last - written) / day) : written
}

function spelled(time: number): string {
  return new Date(time).toISOString().replace('.000Z', 'Z')
}

function noRoom<Card>({ told = 'a wait', wait, written }: Written<Card>, last: number, end: number): string {
  return (
    `${told} is a wait of ${wait / 60} min, its beginning is not filled in, and between the time of the step before it and ` +
    `its own (${written ?? 'none'}) lie ${Math.max(0, (end - last) / minute)} min. Ask whoever worked with the sheet when the wait began; a wait that ` +
    'was not kept is not entered.'
  )
}

function midnight({ day: began, zone }: SheetClock): number {
  const time = Date.parse(`${began}T00:00:00${zone ?? ''}`)
  if (/^\d{4}-\d\d-\d\d$/.test(began) && !Number.isNaN(time)) return time
  throw new CannotRun(`\`${began}\` is no day; write it as 2026-03-04.`)
}

function timeOf(written: string, clock: SheetClock): number {
  const whole = Date.parse(written)
  if (/^\d{4}-\d\d-\d\dT/.test(written) && !Number.isNaN(whole)) return whole
  const [, hour, minutes] = /^(\d{1,2})[:.h]?\s?([0-5]\d)$/.exec(written.trim()) ?? []
  if (hour === undefined || Number(hour) > 23) {
    throw new CannotRun(`\`${written}\` is no time of the day; write it in the form as 07:05.`)
  }
  midnight(clock)
  return Date.parse(`${clock.day}T${hour.padStart(2, '0')}:${minutes}:00${clock.zone ?? ''}`)
}
