import { CannotRun } from './read-input.js'

interface Written<Card> {
  readonly card: Card & { readonly pass: number; readonly place: number }
  /** What stands in the field; null: nothing. */
  readonly written: string | null
  /** Seconds by which the step began before that. */
  readonly wait: number
}

const minute = 60_000
const day = 24 * 60 * minute

/**
 * When each step was done, RFC 3339 in UTC, in the order in which they were done. A sheet says hours and minutes of the
 * clock on the wall: they count from `began` on, and where they run back by half a day or more, it was past midnight.
 * A step without a time has that of the step before it on the sheet.
 */
export function sheetTimes<Card>(
  steps: readonly Written<Card>[],
  began: string
): readonly { readonly card: Written<Card>['card']; readonly at: string }[] {
  let last: number | null = null
  const timed = steps.map((step) => {
    const written: number = step.written === null ? (last ?? midnight(began)) : timeOf(step.written, began)
    // Two clock times on either side of midnight lie most of a day apart.
    const whole: number =
      last !== null && last - written > day / 2 ? written + day * Math.ceil((last - written) / day) : written
    last = whole
    return { ...step, time: whole - step.wait * 1000 }
  })
  const inOrder = timed.toSorted((a, b) => a.time - b.time || a.card.pass - b.card.pass || a.card.place - b.card.place)
  return inOrder.map(({ card, time }) => ({ card, at: new Date(time).toISOString().replace('.000Z', 'Z') }))
}

function midnight(began: string): number {
  const time = Date.parse(`${began}T00:00:00`)
  if (/^\d{4}-\d\d-\d\d$/.test(began) && !Number.isNaN(time)) return time
  throw new CannotRun(`\`${began}\` is no day; write it as 2026-03-04.`)
}

function timeOf(written: string, began: string): number {
  const whole = Date.parse(written)
  if (/^\d{4}-\d\d-\d\dT/.test(written) && !Number.isNaN(whole)) return whole
  const [, hour, minutes] = /^(\d{1,2})[:.h]?\s?([0-5]\d)$/.exec(written.trim()) ?? []
  if (hour === undefined || Number(hour) > 23) {
    throw new CannotRun(`\`${written}\` is no time of the day; write it in the form as 07:05.`)
  }
  midnight(began)
  return Date.parse(`${began}T${hour.padStart(2, '0')}:${minutes}:00`)
}
