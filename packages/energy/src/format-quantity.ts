import { convertUnits } from './convert.js'
import { findUnit } from './find-unit.js'
import { plainNumber } from './format-number.js'
import type { Quantity } from './quantity.js'

export interface FormatOptions {
  /** What stands before the decimals. */
  readonly decimal?: 'point' | 'comma'
  /** Another unit of the same dimension; the quantity's own where it does not fit. */
  readonly unit?: string
  /** Leaves the tolerance out. */
  readonly tolerance?: boolean
}

/** As the language writes it: `690 V ac ± 10 %`; what it gives, `parseQuantity` reads back. */
export function formatQuantity(
  quantity: Quantity,
  { unit, tolerance = true, decimal = 'point' }: FormatOptions = {}
): string {
  const own = findUnit(quantity.unit)
  const wanted = unit === undefined ? undefined : findUnit(unit)
  const fits = own !== undefined && wanted?.dimension === own.dimension && wanted.reference === own.reference
  const symbol = fits ? wanted.symbol : quantity.unit
  const value = fits ? convertUnits(quantity.value, own, wanted) : quantity.value
  const current = quantity.current === undefined ? '' : ` ${quantity.current}`
  const number = (plain: number): string => plainNumber(plain).replace('.', decimal === 'comma' ? ',' : '.')
  const spread = tolerance && quantity.tolerance > 0 ? ` ± ${number(quantity.tolerance * 100)} %` : ''
  return `${number(value)}${symbol === '' ? '' : ` ${symbol}`}${current}${spread}`
}

const minute = 60
const hour = 3600

/** A waiting time for people, rounded up to the next second: `15 min`, `1 h 2 min 5 s`. */
export function formatDuration(seconds: number): string {
  // A hair of floating-point excess must not add a second.
  const whole = Math.ceil(Number(seconds.toPrecision(12)))
  const parts = [
    [Math.floor(whole / hour), 'h'],
    [Math.floor((whole % hour) / minute), 'min'],
    [whole % minute, 's']
  ] as const
  const shown = parts.filter(([count]) => count > 0).map(([count, symbol]) => `${count} ${symbol}`)
  return shown.length === 0 ? '0 s' : shown.join(' ')
}
