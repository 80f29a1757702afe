import { holdsHalfCharacter } from './canonical-json.js'

/** Says what is wrong with a value, as the end of a sentence that begins with its name; null: nothing. */
export type Shape = (value: unknown) => string | null

/** Longest text that an entry may hold, in UTF-16 code units. */
const longest = 65_536

export const text: Shape = (value) => {
  if (typeof value !== 'string') return 'is not a text'
  if (value.length > longest) return `is longer than ${longest} characters`
  return holdsHalfCharacter(value) ? 'holds half a character' : null
}

/** A text that is not empty. */
export const word: Shape = (value) => text(value) ?? (value === '' ? 'is empty' : null)

export const truth: Shape = (value) => (typeof value === 'boolean' ? null : 'is not yes or no')

export const number: Shape = (value) => (typeof value === 'number' && Number.isFinite(value) ? null : 'is not a number')

export const integer =
  (least: number): Shape =>
  (value) =>
    Number.isSafeInteger(value) && (value as number) >= least ? null : `is not a whole number from ${least} on`

export const matching =
  (pattern: RegExp, noun: string): Shape =>
  (value) =>
    typeof value === 'string' && pattern.test(value) ? null : `is not ${noun}`

export const oneOf =
  (...values: readonly string[]): Shape =>
  (value) =>
    values.some((one) => one === value) ? null : `is not one of ${values.join(', ')}`

export const nullOr =
  (shape: Shape): Shape =>
  (value) =>
    value === null ? null : shape(value)

/** May be left out. */
export const optional = (shape: Shape): Shape => Object.assign((value: unknown) => shape(value), { optional: true })

export const list =
  (shape: Shape): Shape =>
  (value) => {
    if (!Array.isArray(value)) return 'is not a list'
    for (const [index, item] of value.entries()) {
      const fault = shape(item)
      if (fault !== null) return `holds an item ${index + 1} that ${fault}`
    }
    return null
  }

/** An object with exactly these members. */
export const record = (members: Readonly<Record<string, Shape>>): Shape => {
  const entries = Object.entries(members)
  return (value) => {
    if (typeof value !== 'object' || value === null || Array.isArray(value)) return 'is not a record'
    for (const name of Object.keys(value)) {
      if (!Object.hasOwn(members, name)) return `holds \`${name}\`, which has no place there`
    }
    for (const [name, shape] of entries) {
      if (!Object.hasOwn(value, name)) {
        if ('optional' in shape) continue
        return `lacks \`${name}\``
      }
      const fault = shape((value as Record<string, unknown>)[name])
      if (fault !== null) return `\`${name}\` ${fault}`
    }
    return null
  }
}

const instantPattern = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,9})?Z$/

/** RFC 3339 in UTC, ending in `Z`, of a day that exists. */
export const instant: Shape = (value) =>
  typeof value === 'string' && instantPattern.test(value) && date(value.slice(0, 10)) === null && isTime(value)
    ? null
    : 'is not a time such as 2026-03-02T08:00:00Z'

const isTime = (value: string): boolean => !Number.isNaN(Date.parse(value))

/** `YYYY-MM-DD` of a day that exists. */
export const date: Shape = (value) => {
  const match = typeof value === 'string' ? /^(\d{4})-(\d\d)-(\d\d)$/.exec(value) : null
  if (match === null) return notADay
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])]
  return day >= 1 && day <= daysIn(year, month) ? null : notADay
}

const notADay = 'is not a day such as 2026-03-02'
const longMonths = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const

/** Days of a month from 1 to 12; 0 for any other. Worked out by hand: a journal asks for it at every line. */
function daysIn(year: number, month: number): number {
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0
  return month === 2 && leap ? 29 : (longMonths[month - 1] ?? 0)
}
