import { dimensionFacts } from './dimensions.js'
import { findUnit, nearestUnits, type Unit } from './find-unit.js'
import type { Quantity } from './quantity.js'
import { add, multiply, type Rational, rational, subtract, toNumber } from './rational.js'

export type ParsedQuantity =
  | { readonly ok: true; readonly value: Quantity }
  | { readonly ok: false; readonly why: string }

// Longer than any sensible quantity; keeps hostile input cheap.
const longest = 120
const one = rational('1')

export interface DecimalOptions {
  /** What stands before the decimals; a procedure has a point whatever the locale. */
  readonly decimal?: 'point' | 'comma'
}

/**
 * Reads `number unit [ac|dc] [± tolerance %]`, as the front matter and attributes of a procedure write it.
 * `why` is a full sentence for the author.
 */
export function parseQuantity(text: string, { decimal = 'point' }: DecimalOptions = {}): ParsedQuantity {
  const written = text.trim()
  const refuse = (why: string): ParsedQuantity => ({ ok: false, why })
  if (written === '') return refuse('A quantity is missing: write a number and a unit, such as `4.2 bar`.')
  if (written.length > longest) return refuse('This is too long for a quantity: write a number and a unit.')
  if (decimal === 'comma' && /\d\.\d/.test(written)) return refuse(pointSentence(written))

  const [head = '', ...tolerances] = (decimal === 'comma' ? pointed(written) : written).split(/±|\+\/-|\+-/)
  if (tolerances.length > 1) return refuse(`\`${written}\` has more than one tolerance.`)
  const tolerance = tolerances[0] === undefined ? rational('0') : parseTolerance(tolerances[0])
  if (typeof tolerance === 'string') return refuse(tolerance)

  const number = splitNumber(head.trim())
  if (typeof number === 'string') return refuse(number)
  const [, spelling = '', current] = /^(.*?)(?:\s+(ac|dc))?$/.exec(number.rest) ?? []
  const unit = findUnit(spelling)
  if (unit === undefined) return refuse(unknownUnit(spelling))
  const wrong = misfit(number.text, unit, current, toNumber(tolerance))
  if (wrong !== undefined) return refuse(wrong)

  const value = rational(number.text)
  const toSi = (share: Rational): number => toNumber(add(multiply(multiply(value, share), unit.factor), unit.zero))
  const ends = [toSi(subtract(one, tolerance)), toSi(add(one, tolerance))] as const
  return {
    ok: true,
    value: {
      written,
      value: toNumber(value),
      unit: unit.symbol,
      dimension: unit.dimension,
      ...(current === 'ac' || current === 'dc' ? { current } : {}),
      ...(unit.reference === undefined ? {} : { reference: unit.reference }),
      tolerance: toNumber(tolerance),
      si: toSi(one),
      interval: { low: Math.min(...ends), high: Math.max(...ends) }
    }
  }
}

function parseTolerance(text: string): Rational | string {
  const trimmed = text.trim()
  if (/\d,\d/.test(trimmed)) return commaSentence(trimmed)
  const match = /^(\d{1,3}(?:\.\d{1,6})?)\s*%$/.exec(trimmed)
  if (match?.[1] === undefined) return `The tolerance \`${trimmed}\` is not a percentage: write it as \`± 10 %\`.`
  const share = multiply(rational(match[1]), rational('0.01'))
  return toNumber(share) > 1 ? `A tolerance of ${match[1]} % is more than the whole: it may be 100 % at most.` : share
}

/** The number at the front and what follows it, or a sentence that says why there is none. */
function splitNumber(head: string): { readonly text: string; readonly rest: string } | string {
  if (/^[-+−]?\d[\d.]*,\d/.test(head)) return commaSentence(head)
  const match = /^([-+−]?)(\d+(?:\.\d+)?)(.*)$/s.exec(head)
  if (match === null) {
    return /^[-+−]?\.\d/.test(head)
      ? `\`${head}\` begins with a point: write a zero before it.`
      : `\`${head}\` does not begin with a number: write a number and a unit, such as \`4.2 bar\`.`
  }
  const [, sign = '', digits = '', after = ''] = match
  const rest = after.trim()
  if (digits.replace('.', '').length > 30) return `\`${digits}\` has more digits than anything can be measured to.`
  if (rest === '') return `\`${head}\` has no unit: write one after the number, such as \`${digits} V\`.`
  if (/^[eE][-+]?\d/.test(after))
    return `\`${head}\` has an exponent: write the number out or use a larger or smaller unit.`
  if (/^\.(\D|$)/.test(after)) return `\`${head}\` has a point with no digit after it.`
  if (/^([-–/.…x×]|to\b|\.\.)*\s*\d/.test(rest) && findUnit(rest) === undefined) {
    return `\`${head}\` holds more than one number: write one number with no spaces, ranges or fractions in it.`
  }
  return { text: (sign === '' || sign === '+' ? '' : '-') + digits, rest }
}

function commaSentence(text: string): string {
  const number = /^[-+−]?[\d.,]*\d/.exec(text)?.[0] ?? text
  const point = number.replace(',', '.')
  const plain = number.replaceAll(',', '')
  const ways = /^[-+−]?\d{1,3}(,\d{3})+$/.test(number)
    ? `\`${plain}\` or \`${point}\`, whichever is meant`
    : `\`${point}\``
  return `\`${text}\` has a comma: use a decimal point, and no separator between thousands (${ways}).`
}

/** A decimal comma made a point; a comma anywhere else stays, and is refused like any other. */
function pointed(text: string): string {
  return text.replace(/(^|[^\d,.])(\d+),(\d+)(?![\d,.])/g, '$1$2.$3')
}

function pointSentence(text: string): string {
  return `\`${text}\` has a point: where the decimal sign is a comma, write the comma, and no separator between thousands.`
}

/** Says that no unit is spelled so, and which are spelled nearly so. */
export function unknownUnit(spelling: string): string {
  if (/\s(ac|dc)$/.test(spelling)) return `\`${spelling}\` is followed by a second \`ac\` or \`dc\`: write one of them.`
  const joined = /^(.+?)\s*\(?(ac|dc)\)?$/i.exec(spelling)
  if (joined?.[1] !== undefined && findUnit(joined[1]) !== undefined) {
    return `\`${spelling}\` is not a unit: write \`${joined[1]} ${(joined[2] ?? '').toLowerCase()}\`.`
  }
  const near = nearestUnits(spelling)
  const hint = near.length === 0 ? '' : `: did you mean ${near.map((symbol) => `\`${symbol}\``).join(', ')}?`
  return `\`${spelling}\` is not a unit that is known here${hint === '' ? '.' : hint}`
}

/** What is wrong with a number for its unit, if anything is. */
function misfit(number: string, unit: Unit, current: string | undefined, tolerance: number): string | undefined {
  const { dimension, reference } = unit
  if (current !== undefined && dimension !== 'voltage' && dimension !== 'current') {
    return `\`${current}\` goes with a voltage or a current, and \`${unit.symbol}\` is ${dimensionFacts[dimension].phrase}.`
  }
  if (tolerance > 0 && toNumber(unit.zero) !== 0) {
    return `A percentage of a temperature in ${unit.symbol} has no meaning: write the highest temperature instead.`
  }
  if (dimension === 'temperature') {
    return toNumber(add(multiply(rational(number), unit.factor), unit.zero)) < 0
      ? `\`${number} ${unit.symbol}\` is below absolute zero.`
      : undefined
  }
  if (!number.startsWith('-')) return undefined
  if (reference !== 'gauge') return `\`${number} ${unit.symbol}\` is negative: write how much there is, without a sign.`
  return toNumber(multiply(rational(number), unit.factor)) < -lowestGauge
    ? `\`${number} ${unit.symbol}\` is below a perfect vacuum.`
    : undefined
}

// No weather lifts the ambient pressure above this (pascal); from memory, the sea-level record is near 1085 hPa.
const lowestGauge = 110_000
