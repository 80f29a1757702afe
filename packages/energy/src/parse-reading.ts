import { convertUnits, mismatch } from './convert.js'
import { findUnit, findUnitsLoosely, type Unit } from './find-unit.js'
import { type DecimalOptions, unknownUnit } from './parse-quantity.js'

export type ParsedReading =
  | {
      readonly ok: true
      /** In the expected unit. */
      readonly value: number
      /** The expected unit, by its symbol. */
      readonly unit: string
      readonly typed: string
      /** What was typed behind the unit, where anything was. */
      readonly current?: 'ac' | 'dc'
    }
  | { readonly ok: false; readonly why: string }

// Longer than any reading; keeps hostile input cheap.
const longest = 60

/**
 * What a technician types for a reading: `0.69 kV`, `50V`, `4,2 bar`, or a bare number in the expected unit.
 * Kinder than `parseQuantity` about commas, case and spaces, and never about what is meant: whatever could be
 * read in two ways is asked for again. A sign is kept: 930 V the wrong way round reads -930 V and is no less
 * dangerous, so whoever compares a voltage or a current with a safe level compares its size. Where the decimal sign is
 * known to be a comma, `1,480` is no longer in doubt and `1.480` is.
 */
export function parseReading(
  text: string,
  expectedUnit: string,
  { decimal = 'point' }: DecimalOptions = {}
): ParsedReading {
  const typed = text.trim()
  const refuse = (why: string): ParsedReading => ({ ok: false, why })
  const expected = findUnit(expectedUnit)
  if (expected === undefined) return refuse(unknownUnit(expectedUnit))
  const example = `such as \`4.2 ${expected.symbol}\``
  if (typed === '') return refuse(`Nothing was typed: type the reading, ${example}.`)
  if (typed.length > longest) return refuse(`That is too long for a reading: type a number and a unit, ${example}.`)

  const match = /^([-+−]?)\s*([\d.,]*\d)(?![\d.,])\s*(.*)$/s.exec(typed)
  if (match === null)
    return refuse(`\`${typed}\` is not a reading: type the number that the instrument shows, ${example}.`)
  const [, sign = '', digits = '', rest = ''] = match
  const number = plainNumber(digits, decimal)
  if (typeof number !== 'number') return refuse(number.why)
  if (/\d/.test(rest) && findUnit(rest) === undefined) {
    return refuse(`\`${typed}\` holds more than one number: type one reading, ${example}.`)
  }

  const [, spelling = '', suffix] = /^(.*?)(?:\s*\(?(ac|dc)\)?)?$/is.exec(rest) ?? []
  const unit = spelling === '' ? expected : chooseUnit(spelling, expected)
  if ('why' in unit) return refuse(unit.why)
  const why = mismatch(unit, expected)
  if (why !== undefined) return refuse(`The reading is asked for in ${expected.symbol}. ${why}`)
  if (suffix !== undefined && expected.dimension !== 'voltage' && expected.dimension !== 'current') {
    return refuse(`\`${suffix}\` goes with a voltage or a current: type the reading, ${example}.`)
  }
  const value = convertUnits(sign === '-' || sign === '−' ? -number : number, unit, expected)
  if (expected.dimension === 'temperature' && convertUnits(value, expected, kelvin()) < 0) {
    return refuse(`\`${typed}\` is below absolute zero: type the reading again.`)
  }
  const current = suffix?.toLowerCase()
  return {
    ok: true,
    value,
    unit: expected.symbol,
    typed,
    ...(current === 'ac' || current === 'dc' ? { current } : {})
  }
}

function kelvin(): Unit {
  const unit = findUnit('K')
  if (unit === undefined) throw new Error('the table of units has lost the kelvin')
  return unit
}

/** A number with the decimal sign of the locale, or with the other one where it cannot be taken for anything else. */
function plainNumber(digits: string, decimal: 'point' | 'comma'): number | { readonly why: string } {
  if (digits.length > 20) return { why: `\`${digits}\` has more digits than an instrument shows.` }
  const [own, other] = decimal === 'point' ? ['.', ','] : [',', '.']
  const parts = digits.split(/[.,]/)
  const [whole = '', fraction] = parts
  if (fraction === undefined) return Number(whole)
  if (parts.length > 2 || whole === '') {
    return { why: `\`${digits}\` is not one number: type it with a decimal ${decimal} and no other marks.` }
  }
  // 1,480 may be 1480 or 1.48; 0,480 and 12,48 can only be decimals.
  if (digits.includes(other) && fraction.length === 3 && whole.length <= 3 && !whole.startsWith('0')) {
    return {
      why: `\`${digits}\` can be read as ${whole}${fraction} or as ${whole}${own}${fraction}: type one of these.`
    }
  }
  return Number(`${whole}.${fraction}`)
}

/** The unit that was typed; case and degree sign are forgiven where only one unit of the expected dimension fits. */
function chooseUnit(spelling: string, expected: Unit): Unit | { readonly why: string } {
  const exact = findUnit(spelling)
  if (exact?.dimension === expected.dimension) return exact
  const loose = findUnitsLoosely(spelling, expected.dimension)
  const [only, ...others] = loose
  if (only !== undefined && others.length === 0) return only
  if (others.length > 0) {
    return {
      why: `\`${spelling}\` can be ${loose.map(({ symbol }) => `\`${symbol}\``).join(' or ')}: type it exactly.`
    }
  }
  return exact ?? { why: unknownUnit(spelling) }
}
