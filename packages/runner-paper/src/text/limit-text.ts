import type { Limits } from '@lockwright/machine'
import type { Catalog } from '../catalog.js'
import { unbroken } from './say.js'

/** A reading's limits as printed beside its blank: a range, never an error band. */
export function limitText({ min, max, below }: Limits, unit: string, { limits, number }: Catalog): string {
  const told = (value: number): string => (unit === '' ? number(value) : unbroken(`${number(value)} ${unit}`))
  if (below !== null) return below === 0 ? limits.zero(told(0)) : limits.below(told(below))
  if (min !== null && max !== null) return limits.between(number(min), told(max))
  if (min !== null) return limits.atLeast(told(min))
  if (max !== null) return limits.atMost(told(max))
  return limits.none
}
