import { dimensionFacts } from './dimensions.js'
import { plainNumber } from './format-number.js'
import type { Dimension } from './quantity.js'

/** The unit in which instruments show a level, and how it comes from the SI value: (SI − zero)/factor. */
interface LevelUnit {
  readonly unit: string
  readonly factor: number
  readonly zero: number
}

const shownOtherwise: Readonly<Partial<Record<Dimension, LevelUnit>>> = {
  pressure: { unit: 'bar', factor: 1e5, zero: 0 },
  temperature: { unit: '°C', factor: 1, zero: 273.15 },
  'angular-speed': { unit: 'rpm', factor: Math.PI / 30, zero: 0 }
}

export function levelUnit(dimension: Dimension): LevelUnit {
  return shownOtherwise[dimension] ?? { unit: dimensionFacts[dimension].unit, factor: 1, zero: 0 }
}

export function levelShown(si: number, dimension: Dimension): number {
  const { factor, zero } = levelUnit(dimension)
  return (si - zero) / factor
}

/** `48.2 V`, `1480 rpm`, `0.1 bar`. */
export function tellLevel(si: number, dimension: Dimension): string {
  return `${plainNumber(levelShown(si, dimension), 4)} ${levelUnit(dimension).unit}`
}
