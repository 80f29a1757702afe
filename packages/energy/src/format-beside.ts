import { convertUnits } from './convert.js'
import { dimensionFacts } from './dimensions.js'
import { findUnit } from './find-unit.js'
import { plainNumber, withPrefix } from './format-number.js'
import { type FormatOptions, formatDuration, formatQuantity } from './format-quantity.js'
import type { Dimension, Quantity } from './quantity.js'

/** One row: from this size on (in the SI unit) these two units are the ones that people of either system read. */
interface Pair {
  readonly from: number
  readonly si: string
  readonly customary: string
}

/** Where both systems help, smallest size first; electrical quantities and times are the same in both. */
const pairs: Readonly<Partial<Record<Dimension, readonly Pair[]>>> = {
  pressure: [{ from: 0, si: 'bar', customary: 'psi' }],
  length: [
    { from: 0, si: 'mm', customary: 'in' },
    { from: 1, si: 'm', customary: 'ft' }
  ],
  area: [
    { from: 0, si: 'mm²', customary: 'in²' },
    { from: 0.1, si: 'm²', customary: 'ft²' }
  ],
  volume: [
    { from: 0, si: 'mL', customary: 'in³' },
    { from: 0.001, si: 'L', customary: 'gal' },
    { from: 1, si: 'm³', customary: 'ft³' }
  ],
  mass: [{ from: 0, si: 'kg', customary: 'lb' }],
  inertia: [{ from: 0, si: 'kg·m²', customary: 'lb·ft²' }],
  energy: [
    { from: 0, si: 'J', customary: 'ft·lbf' },
    { from: 1e3, si: 'kJ', customary: 'ft·lbf' },
    { from: 1e6, si: 'MJ', customary: 'ft·lbf' }
  ],
  torque: [{ from: 0, si: 'N·m', customary: 'lbf·ft' }],
  force: [
    { from: 0, si: 'N', customary: 'lbf' },
    { from: 1e3, si: 'kN', customary: 'lbf' }
  ],
  'force-per-length': [{ from: 0, si: 'N/mm', customary: 'lbf/in' }],
  temperature: [{ from: 0, si: '°C', customary: '°F' }],
  flow: [{ from: 0, si: 'L/min', customary: 'gal/min' }],
  speed: [{ from: 0, si: 'm/s', customary: 'ft/s' }]
}

const customaryUnits = new Set(Object.values(pairs).flatMap((rows) => rows.map(({ customary }) => customary)))
const alsoCustomary = new Set(['psig', 'psia', 'lbf/ft', 'lbf·in', 'ft/min'])

function pairFor(dimension: Dimension, si: number): Pair | undefined {
  return pairs[dimension]?.findLast(({ from }) => Math.abs(si) >= from)
}

/** The unit for gauge or absolute pressure; any other unit stays. */
function referred(unit: string, reference: Quantity['reference']): string {
  return reference === 'absolute' && (unit === 'bar' || unit === 'psi') ? `${unit}a` : unit
}

function figure(si: number, symbol: string, digits: number): string {
  const unit = findUnit(symbol)
  // Symbols stand above: one that is no unit is a fault of this file.
  if (unit === undefined) throw new Error(`${symbol} is not a unit`)
  const base = { symbol: '', dimension: unit.dimension, factor: one, zero: nothing }
  return `${plainNumber(convertUnits(si, base, unit), digits)} ${symbol}`
}

const one = { numerator: 1n, denominator: 1n }
const nothing = { numerator: 0n, denominator: 1n }

/**
 * As written, with the other system beside it where both help: `4.2 bar (60.9 psi)`, `60 psi (4.14 bar)`. The figure
 * in brackets is rounded to three digits: for reading, not for reckoning.
 */
export function formatBeside(quantity: Quantity, options: FormatOptions = {}): string {
  const own = formatQuantity(quantity, options)
  const pair = pairFor(quantity.dimension, quantity.si)
  if (pair === undefined) return own
  const isCustomary = customaryUnits.has(quantity.unit) || alsoCustomary.has(quantity.unit)
  const other = referred(isCustomary ? pair.si : pair.customary, quantity.reference)
  const beside = figure(quantity.si, other, 3)
  return `${own} (${options.decimal === 'comma' ? beside.replace('.', ',') : beside})`
}

/** A reckoned value in the unit people read it in, with the US customary one beside it: `5.378 kJ (3970 ft·lbf)`. */
export function formatMeasure(
  si: number,
  dimension: Dimension,
  { reference, digits = 4 }: { readonly reference?: Quantity['reference']; readonly digits?: number } = {}
): string {
  if (dimension === 'time' && si >= 1) return formatDuration(si)
  if (dimension === 'angular-speed') return figure(si, 'rpm', digits)
  const pair = pairFor(dimension, si)
  if (pair === undefined) {
    const { unit } = dimensionFacts[dimension]
    return unit === '' ? plainNumber(si, digits) : withPrefix(si, unit, digits)
  }
  return `${figure(si, referred(pair.si, reference), digits)} (${figure(si, referred(pair.customary, reference), 3)})`
}
