import { dimensionFacts, lookAlike } from './dimensions.js'
import { findUnit, type Unit } from './find-unit.js'
import { unknownUnit } from './parse-quantity.js'
import type { Dimension } from './quantity.js'
import { add, divide, multiply, rationalOf, subtract, toNumber } from './rational.js'

export type Converted = { readonly ok: true; readonly value: number } | { readonly ok: false; readonly why: string }

/**
 * One number from one unit into another, exact up to the last rounding. Gauge and absolute pressures are not
 * converted into each other: that takes the ambient pressure, which nobody has given.
 */
export function convert(value: number, fromUnit: string, toUnit: string): Converted {
  if (!Number.isFinite(value)) return { ok: false, why: 'There is no number to convert.' }
  const from = findUnit(fromUnit)
  if (from === undefined) return { ok: false, why: unknownUnit(fromUnit) }
  const to = findUnit(toUnit)
  if (to === undefined) return { ok: false, why: unknownUnit(toUnit) }
  const why = mismatch(from, to)
  return why === undefined ? { ok: true, value: convertUnits(value, from, to) } : { ok: false, why }
}

/** Between two units that were found to fit. */
export function convertUnits(value: number, from: Unit, to: Unit): number {
  const si = add(multiply(rationalOf(value), from.factor), from.zero)
  return toNumber(divide(subtract(si, to.zero), to.factor))
}

/** Why two units do not fit each other; undefined where they do. */
export function mismatch(from: Unit, to: Unit): string | undefined {
  if (from.dimension !== to.dimension) {
    const alike = lookAlike(from.dimension, to.dimension) ? ', although both are built from the same base units' : ''
    return `\`${from.symbol}\` is ${phrase(from)} and \`${to.symbol}\` is ${phrase(to)}${alike}.`
  }
  return from.reference === to.reference
    ? undefined
    : `\`${from.symbol}\` is ${phrase(from)} and \`${to.symbol}\` is ${phrase(to)}; they differ by the ambient pressure, which is not known here.`
}

function phrase(unit: Unit): string {
  if (unit.reference === undefined) return dimensionFacts[unit.dimension].phrase
  return unit.reference === 'gauge' ? 'a pressure above ambient' : 'an absolute pressure'
}

/** What a unit measures; undefined where no unit is spelled so. */
export function dimensionOf(unit: string): Dimension | undefined {
  return findUnit(unit)?.dimension
}
