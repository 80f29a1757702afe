import type { Interval } from '../calculations/calculation.js'
import { fitLine, type LineFit, type LinePoint } from './line-fit.js'

export interface DecayReading {
  /** Since any moment, the same one for all readings. */
  readonly seconds: number
  /** In the SI unit; the size counts, not the sign. */
  readonly level: number
}

/** Largest error of one reading: a share of it and a fixed part, added. Copied from the instrument's manual. */
export interface ReadingAccuracy {
  readonly share?: number
  readonly fixed?: number
}

/** How the level falls: by the same share in the same time towards `floor`, or by the same amount. */
export type DecayModel =
  | {
      readonly kind: 'exponential'
      readonly floor: number
      /** The longest time constant that the declared parameters allow. */
      readonly slowest?: number
    }
  | {
      readonly kind: 'linear'
      /** The slowest fall, level a second, that the declared parameters allow. */
      readonly slowest?: number
    }

export interface DecayQuestion {
  readonly model: DecayModel
  /** The level that has to be reached. */
  readonly safe: number
  readonly accuracy?: ReadingAccuracy
  /** Moments at which it was shorted: what came before says nothing of what comes after. */
  readonly shortedAt?: readonly number[]
}

/** A number found by the fit, and its 95 % interval where enough is known for one. */
export interface Estimate {
  readonly best: number
  readonly interval?: Interval
}

export type DecaySign =
  | { readonly kind: 'slower-than-worst-case'; readonly certainty: 'clear' | 'possible' }
  /** It no longer falls, or at less than a quarter of what it should: something feeds it, or its way out is shut. */
  | { readonly kind: 'stopped-falling'; readonly level: number }
  | { readonly kind: 'rising'; readonly from: number; readonly to: number }
  /** It rose after a short was taken off: dielectric absorption gives charge back. */
  | { readonly kind: 'rise-after-short'; readonly from: number; readonly to: number }

export type DecayFit =
  /** What is wrong with the readings, as a full sentence. */
  | { readonly kind: 'not-enough'; readonly why: string; readonly signs: readonly DecaySign[] }
  /** The last reading is at or below the safe level, with the error of the instrument counted against it. */
  | { readonly kind: 'reached'; readonly signs: readonly DecaySign[] }
  | { readonly kind: 'not-falling'; readonly signs: readonly DecaySign[] }
  | {
      readonly kind: 'falling'
      /** Exponential: seconds. Linear: undefined. */
      readonly timeConstant?: Estimate
      /** Linear: level a second. Exponential: undefined. */
      readonly fall?: Estimate
      /** When the safe level is reached, on the clock of the readings; `high` is Infinity where no end can be told. */
      readonly safeAt: Estimate
      readonly signs: readonly DecaySign[]
    }

/** Fits the decay through all readings since the last short, and says what about it is not as it should be. */
export function fitDecay(readings: readonly DecayReading[], question: DecayQuestion): DecayFit {
  const { model, safe, accuracy } = question
  const disorder = disorderOf(readings)
  if (disorder !== undefined) return { kind: 'not-enough', why: disorder, signs: [] }
  const lastShort = Math.max(Number.NEGATIVE_INFINITY, ...(question.shortedAt ?? []))
  const counted = readings
    .filter(({ seconds }) => seconds >= lastShort)
    .map(({ seconds, level }) => ({ seconds, level: Math.abs(level), error: errorOf(Math.abs(level), accuracy) }))
  const rise = riseOf(counted, Number.isFinite(lastShort))
  const last = counted.at(-1)
  if (last !== undefined && last.level + (last.error ?? 0) <= safe) return { kind: 'reached', signs: rise }

  const floor = model.kind === 'exponential' ? model.floor : Number.NEGATIVE_INFINITY
  if (safe <= floor) {
    const why = 'It falls towards a level that is not below the safe one: however long the wait, it is not enough.'
    return { kind: 'not-enough', why, signs: rise }
  }
  const usable = counted.filter(({ level, error }) => level - (error ?? 0) > floor)
  if (usable.length < 2) {
    const why =
      counted.length < 2
        ? 'At least two readings since the last short are needed.'
        : 'The readings are too near the level it falls to for the instrument to tell them apart.'
    return { kind: 'not-enough', why, signs: rise }
  }
  const points = usable.map((reading) => pointOf(reading, floor))
  const line = fitLine(points)
  const slowestFall = fallOf(model)
  const signs = [...rise, ...stoppedOf(usable, points, slowestFall, safe), ...slowerOf(line, slowestFall)]
  if (!(line.fall > 0)) return { kind: 'not-falling', signs }
  const target = model.kind === 'exponential' ? Math.log(safe - floor) : safe
  return {
    kind: 'falling',
    ...(model.kind === 'exponential' ? { timeConstant: inverse(line) } : { fall: asEstimate(line) }),
    safeAt: crossing(line, target, usable.at(-1)?.seconds ?? 0),
    signs
  }
}

function disorderOf(readings: readonly DecayReading[]): string | undefined {
  if (readings.some(({ seconds, level }) => !Number.isFinite(seconds) || !Number.isFinite(level))) {
    return 'A reading has no number.'
  }
  return readings.some(({ seconds }, index) => index > 0 && seconds <= (readings[index - 1]?.seconds ?? 0))
    ? 'The readings have to be in the order in which they were taken, each at its own time.'
    : undefined
}

interface Counted extends DecayReading {
  readonly error: number | undefined
}

function errorOf(level: number, accuracy: ReadingAccuracy | undefined): number | undefined {
  return accuracy === undefined ? undefined : (accuracy.share ?? 0) * level + (accuracy.fixed ?? 0)
}

function pointOf({ seconds, level, error }: Counted, floor: number): LinePoint {
  if (!Number.isFinite(floor)) return { at: seconds, value: level, error }
  // Taken downwards, where a logarithm reaches further.
  const down = error === undefined ? undefined : Math.log((level - floor) / (level - error - floor))
  return { at: seconds, value: Math.log(level - floor), error: down }
}

/** The slowest fall that is allowed, in the coordinate of the line. */
function fallOf(model: DecayModel): number | undefined {
  if (model.slowest === undefined) return undefined
  return model.kind === 'exponential' ? 1 / model.slowest : model.slowest
}

function riseOf(readings: readonly Counted[], wasShorted: boolean): readonly DecaySign[] {
  const lowest = readings.reduce<Counted | undefined>(
    (least, reading) => (least === undefined || reading.level < least.level ? reading : least),
    undefined
  )
  const last = readings.at(-1)
  if (lowest === undefined || last === undefined) return []
  if (last.level - lowest.level <= (last.error ?? 0) + (lowest.error ?? 0)) return []
  return [{ kind: wasShorted ? 'rise-after-short' : 'rising', from: lowest.level, to: last.level }]
}

/** Below this share of what it should fall it counts as not falling. */
const standstillShare = 0.25

function stoppedOf(
  readings: readonly Counted[],
  points: readonly LinePoint[],
  slowestFall: number | undefined,
  safe: number
): readonly DecaySign[] {
  const [before, last] = [points.at(-2), points.at(-1)]
  const level = readings.at(-1)?.level
  if (before === undefined || last === undefined || level === undefined || level <= safe) return []
  const seconds = last.at - before.at
  const most = (before.value - last.value + (before.error ?? 0) + (last.error ?? 0)) / seconds
  const earlier = points.length > 2 ? fitLine(points.slice(0, -1)) : undefined
  const least = earlier === undefined ? 0 : earlier.fall - (earlier.fallBand ?? 0)
  const expected = Math.max(slowestFall ?? 0, least)
  return expected > 0 && most < standstillShare * expected ? [{ kind: 'stopped-falling', level }] : []
}

function slowerOf(line: LineFit, slowestFall: number | undefined): readonly DecaySign[] {
  if (slowestFall === undefined) return []
  if (line.fallBand !== undefined && line.fall + line.fallBand < slowestFall) {
    return [{ kind: 'slower-than-worst-case', certainty: 'clear' }]
  }
  // A hair of floating-point excess is no delay.
  return line.fall < slowestFall * (1 - 1e-9) ? [{ kind: 'slower-than-worst-case', certainty: 'possible' }] : []
}

function asEstimate({ fall, fallBand }: LineFit): Estimate {
  if (fallBand === undefined) return { best: fall }
  return { best: fall, interval: { low: Math.max(0, fall - fallBand), high: fall + fallBand } }
}

function inverse(line: LineFit): Estimate {
  const { best, interval } = asEstimate(line)
  if (interval === undefined) return { best: 1 / best }
  return { best: 1 / best, interval: { low: 1 / interval.high, high: 1 / interval.low } }
}

/** When the line comes down to the target, and between which moments its band does. */
function crossing(line: LineFit, target: number, last: number): Estimate {
  const best = last + (line.valueAt(last) - target) / line.fall
  // The last reading was above the safe level, so nothing before it can be the moment.
  const notBefore = (at: number): number => Math.max(last, at)
  if (line.bandAt(best) === undefined) return { best: notBefore(best) }
  const edge = (side: 1 | -1) => (at: number) => line.valueAt(at) + side * (line.bandAt(at) ?? 0) - target
  const interval = { low: firstBelow(edge(-1), best, line), high: firstBelow(edge(1), best, line) }
  return { best: notBefore(best), interval: { low: notBefore(interval.low), high: notBefore(interval.high) } }
}

/**
 * Where a curve first goes below zero around a guess. The edges of a band are a straight fall plus a convex widening
 * or less a concave one, so what is not below zero after a thousand times the way is taken as never.
 */
function firstBelow(edge: (at: number) => number, guess: number, line: LineFit): number {
  const unit = Math.max(Math.abs(edge(guess)) / line.fall, 1e-9)
  let [above, below] = [guess, guess]
  if (edge(guess) > 0) {
    for (let step = unit; edge(below) > 0; step *= 1.5) {
      if (step > unit * 1e6) return Number.POSITIVE_INFINITY
      above = below
      below = guess + step
    }
  } else {
    for (let step = unit; edge(above) <= 0; step *= 1.5) {
      if (step > unit * 1e6) return Number.NEGATIVE_INFINITY
      below = above
      above = guess - step
    }
  }
  for (let turn = 0; turn < 80; turn++) {
    const middle = (above + below) / 2
    if (edge(middle) > 0) above = middle
    else below = middle
  }
  return below
}
