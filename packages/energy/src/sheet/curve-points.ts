import { timeOf } from '../calculations/source-calculations.js'
import type { EnergyParameters } from '../energy-parameters.js'
import { levelShown, levelUnit } from '../level-unit.js'
import { type DecayEnd, decayLaw } from './decay-law.js'

export interface CurvePoint {
  readonly seconds: number
  /** In the unit of the curve. */
  readonly level: number
}

/** How a level falls: as slow as the tolerances allow, and as fast. Times rise along each line. */
export interface DecayCurve {
  /** What falls: `Voltage`. */
  readonly title: string
  readonly unit: string
  readonly safe: number
  readonly slow: readonly CurvePoint[]
  readonly fast: readonly CurvePoint[]
  /** The longest time to the safe level, in seconds. */
  readonly safeAfter: number
}

/** How far the plot goes on behind the safe level. */
const margin = 1.25

/** Points of the decay curve of a source, for plotting; undefined where no decay can be computed or nothing is to fall. */
export function curvePoints(parameters: EnergyParameters, count = 60): DecayCurve | undefined {
  const time = timeOf(parameters)
  const law = decayLaw(parameters)
  if (law === undefined || time.kind !== 'computed' || !(time.calculation.worst > 0)) return undefined
  const safeAfter = time.calculation.worst
  const shown = (si: number): number => levelShown(si, law.dimension)
  const line = (end: DecayEnd): readonly CurvePoint[] =>
    Array.from({ length: count + 1 }, (_, index) => {
      const share = index / count
      if (law.gives === 'time') {
        const start = law.start[end]
        const level = start - Math.max(0, start - law.safe) * share
        return { seconds: law.timeTo(level, end), level: shown(level) }
      }
      const seconds = safeAfter * margin * share
      return { seconds, level: shown(law.levelAt(seconds, end)) }
    })
  return {
    title: law.title,
    unit: levelUnit(law.dimension).unit,
    safe: shown(law.safe),
    slow: line('high'),
    fast: line('low'),
    safeAfter
  }
}
