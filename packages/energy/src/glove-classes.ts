import type { Quantity } from './quantity.js'

/** Classes of rubber insulating gloves. */
export type GloveClass = '00' | '0' | '1' | '2' | '3' | '4'

/**
 * Highest voltage at which each class may be used. The ac column is 29 CFR 1910.137 (table I-4), read at second
 * hand; the dc column is from memory, and stands in ASTM D120.
 */
export const gloveClasses: Readonly<Record<GloveClass, { readonly ac: number; readonly dc: number }>> = {
  '00': { ac: 500, dc: 750 },
  '0': { ac: 1_000, dc: 1_500 },
  '1': { ac: 7_500, dc: 11_250 },
  '2': { ac: 17_000, dc: 25_500 },
  '3': { ac: 26_500, dc: 39_750 },
  '4': { ac: 36_000, dc: 54_000 }
}

/** Whether gloves of a class may be used up to a voltage. Where the current is not known, the stricter ac column counts. */
export function gloveClassFits(glove: GloveClass, volts: number, current: 'ac' | 'dc' | undefined): boolean {
  const limits = gloveClasses[glove]
  return volts >= 0 && volts <= (current === 'dc' ? limits.dc : limits.ac)
}

/** The upper end of a voltage's tolerance, in volts. */
export function worstCaseVolts(quantity: Quantity): number {
  // The language checks that a parameter has its dimension before anybody reckons with it.
  if (quantity.dimension !== 'voltage') throw new RangeError(`${quantity.written} is not a voltage`)
  return quantity.interval.high
}
