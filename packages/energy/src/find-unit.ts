import type { Dimension } from './quantity.js'
import { multiply, type Rational, rational } from './rational.js'
import { prefixFactors, unitTable } from './unit-table.js'

/** One unit, ready to reckon with: SI value = value × factor + zero. */
export interface Unit {
  readonly symbol: string
  readonly dimension: Dimension
  readonly factor: Rational
  readonly zero: Rational
  readonly reference?: 'gauge' | 'absolute'
}

const nothing = rational('0')
const unitsBySpelling = new Map<string, Unit>()

for (const row of unitTable) {
  for (const prefix of ['', ...(row.prefixes ?? '').split(' ').filter((name) => name !== '')]) {
    const factor = rational(row.factor)
    const unit: Unit = {
      symbol: prefix + row.symbol,
      dimension: row.dimension,
      factor: prefix === '' ? factor : multiply(rational(prefixFactors[prefix] ?? ''), factor),
      zero: row.zero === undefined ? nothing : rational(row.zero),
      ...(row.reference === undefined ? {} : { reference: row.reference })
    }
    for (const spelling of [row.symbol, ...(row.spell ?? [])]) {
      const key = plainSpelling(prefix + spelling)
      // A spelling with two meanings is a fault of the table, never of what somebody wrote.
      if (unitsBySpelling.has(key)) throw new Error(`the table of units has \`${key}\` twice`)
      unitsBySpelling.set(key, unit)
    }
  }
}

/**
 * One form for the many ways to type a unit: both micro signs and `u`, both ohm signs, raised digits, `^2`,
 * a space, a dot or an asterisk between factors, the degree sign and what is taken for it.
 */
function plainSpelling(text: string): string {
  return text
    .replace(/[º˚]/g, '°')
    .normalize('NFKC')
    .replace(/[⋅∙•*×]/g, '·')
    .replace(/[⁄∕]/g, '/')
    .replace(/−/g, '-')
    .replace(/\^/g, '')
    .replace(/\s*([·/])\s*/g, '$1')
    .replace(/°\s+/g, '°')
    .trim()
    .replace(/\s+/g, '·')
    .replace(/^u/, 'μ')
}

/** The unit that bears this spelling, upper and lower case apart; undefined where none does. */
export function findUnit(spelling: string): Unit | undefined {
  return unitsBySpelling.get(plainSpelling(spelling))
}

/** What a spelling could mean to someone who types in a hurry: case and degree sign put aside, within one dimension. */
export function findUnitsLoosely(spelling: string, dimension: Dimension): readonly Unit[] {
  const loosen = (key: string): string => key.toLowerCase().replace(/^(°|deg·?)/, '')
  const wanted = loosen(plainSpelling(spelling))
  const found = new Set<Unit>()
  for (const [key, unit] of unitsBySpelling) {
    if (unit.dimension === dimension && loosen(key) === wanted) found.add(unit)
  }
  return [...found]
}

/** Symbols of at most four units whose spelling is nearest, nearest first; a wrong case alone is nearer than any other. */
export function nearestUnits(spelling: string): readonly string[] {
  const wanted = plainSpelling(spelling)
  const limit = Math.min(2, wanted.length - 1)
  const distances = new Map<string, number>()
  for (const [key, unit] of unitsBySpelling) {
    const distance = key.toLowerCase() === wanted.toLowerCase() ? 0 : editDistance(key, wanted, limit)
    if (distance <= limit) distances.set(unit.symbol, Math.min(distance, distances.get(unit.symbol) ?? distance))
  }
  const sorted = [...distances].sort(([left, near], [right, far]) => near - far || (left < right ? -1 : 1))
  const caseOnly = sorted.filter(([, distance]) => distance === 0)
  return (caseOnly.length > 0 ? caseOnly : sorted).slice(0, 4).map(([symbol]) => symbol)
}

/** Levenshtein distance, or more than `limit` where the lengths alone say so. */
function editDistance(left: string, right: string, limit: number): number {
  if (Math.abs(left.length - right.length) > limit) return limit + 1
  let previous = Array.from({ length: right.length + 1 }, (_, index) => index)
  for (let row = 1; row <= left.length; row++) {
    const current = [row]
    for (let column = 1; column <= right.length; column++) {
      const change = (previous[column - 1] ?? 0) + (left[row - 1] === right[column - 1] ? 0 : 1)
      current.push(Math.min(change, (previous[column] ?? 0) + 1, (current[column - 1] ?? 0) + 1))
    }
    previous = current
  }
  return previous[right.length] ?? 0
}
