import { studentQuantile } from './student-quantile.js'

export interface LinePoint {
  readonly at: number
  readonly value: number
  /** Largest error of the value; undefined where nothing is known of the instrument. */
  readonly error: number | undefined
}

/** A straight line through points, by least squares. */
export interface LineFit {
  /** How much the value falls in one unit of `at`. */
  readonly fall: number
  readonly valueAt: (at: number) => number
  /** Half width of the 95 % band; undefined where two points of an unknown instrument leave nothing to judge by. */
  readonly bandAt: (at: number) => number | undefined
  /** Half width of the 95 % interval of `fall`. */
  readonly fallBand: number | undefined
}

/** Two points or more, not all at the same place. */
export function fitLine(points: readonly LinePoint[]): LineFit {
  const count = points.length
  const middle = sum(points.map(({ at }) => at)) / count
  const mean = sum(points.map(({ value }) => value)) / count
  const spread = sum(points.map(({ at }) => (at - middle) ** 2))
  const slope = sum(points.map(({ at, value }) => (at - middle) * (value - mean))) / spread
  const valueAt = (at: number): number => mean + slope * (at - middle)
  const degrees = count - 2
  const scatter =
    degrees > 0
      ? studentQuantile(degrees) * Math.sqrt(sum(points.map(({ at, value }) => (value - valueAt(at)) ** 2)) / degrees)
      : undefined
  const errors = points.map(({ error }) => error)
  const known = errors.filter((error) => error !== undefined)
  const instrument = known.length === count ? known : undefined
  // What the readings scatter and what the instrument may be off add up: its error is the same at every reading.
  const band = (weights: readonly number[], width: number): number | undefined => {
    if (scatter === undefined && instrument === undefined) return undefined
    const byInstrument = sum(weights.map((weight, index) => Math.abs(weight) * (instrument?.[index] ?? 0)))
    return (scatter ?? 0) * width + byInstrument
  }
  return {
    fall: -slope,
    valueAt,
    bandAt: (at) =>
      band(
        points.map((point) => 1 / count + ((at - middle) * (point.at - middle)) / spread),
        Math.sqrt(1 / count + (at - middle) ** 2 / spread)
      ),
    fallBand: band(
      points.map((point) => (point.at - middle) / spread),
      1 / Math.sqrt(spread)
    )
  }
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0)
}
