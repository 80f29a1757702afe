import { plainNumber } from '../format-number.js'
import type { CurvePoint, DecayCurve } from './curve-points.js'

export interface PlotPoint {
  readonly x: number
  readonly y: number
}

/** One thing to draw; x grows to the right and y downwards, as in SVG and PDF libraries. */
export type PlotMark =
  | { readonly kind: 'line'; readonly use: PlotUse; readonly points: readonly PlotPoint[] }
  | { readonly kind: 'area'; readonly points: readonly PlotPoint[] }
  | {
      readonly kind: 'text'
      readonly at: PlotPoint
      readonly anchor: 'start' | 'middle' | 'end'
      readonly text: string
    }

export type PlotUse = 'axis' | 'grid' | 'slow' | 'fast' | 'safe' | 'wait'

/** A decay curve laid out on a page, for any renderer. */
export interface CurvePlot {
  readonly width: number
  readonly height: number
  readonly title: string
  /** What the plot shows, in words. */
  readonly description: string
  readonly marks: readonly PlotMark[]
}

export interface CurvePlotOptions {
  readonly width?: number
  readonly height?: number
  readonly title?: string
  /** A further moment to mark, in seconds: the wait of the label. */
  readonly labelWait?: number
  /** The same: the wait that a procedure writes. */
  readonly writtenWait?: number
}

/** Width of a letter and the distance from a line, in the units of the plot: enough to keep words off lines. */
const letter = 6.5
const gap = 6
const frame = { left: 56, right: 16, top: 28, bottom: 40 }

/** Lays a curve out: axes with round numbers, the band between slow and fast, the safe level and when it is reached. */
export function curvePlot(curve: DecayCurve, options: CurvePlotOptions = {}): CurvePlot {
  const { width = 480, height = 280, title = `${curve.title} over time`, labelWait, writtenWait } = options
  const all = [...curve.slow, ...curve.fast]
  const last = Math.max(curve.safeAfter, labelWait ?? 0, writtenWait ?? 0, ...all.map(({ seconds }) => seconds))
  const levels = [curve.safe, ...all.map(({ level }) => level)]
  const timeUnit = timeUnitFor(last)
  const times = roundScale(0, last / timeUnit.seconds)
  const scale = roundScale(Math.min(0, ...levels), Math.max(...levels))
  const x = (seconds: number): number =>
    round(frame.left + (seconds / timeUnit.seconds / times.end) * (width - frame.left - frame.right))
  const y = (level: number): number =>
    round(
      height - frame.bottom - ((level - scale.start) / (scale.end - scale.start)) * (height - frame.top - frame.bottom)
    )
  const place = ({ seconds, level }: CurvePoint): PlotPoint => ({ x: x(seconds), y: y(level) })
  const across = (use: PlotUse, level: number): PlotMark => ({
    kind: 'line',
    use,
    points: [
      { x: frame.left, y: y(level) },
      { x: width - frame.right, y: y(level) }
    ]
  })
  const upright = (use: PlotUse, seconds: number): PlotMark => ({
    kind: 'line',
    use,
    points: [
      { x: x(seconds), y: frame.top },
      { x: x(seconds), y: height - frame.bottom }
    ]
  })
  const text = (at: PlotPoint, anchor: 'start' | 'middle' | 'end', words: string): PlotMark => ({
    kind: 'text',
    at,
    anchor,
    text: words
  })
  const moments: readonly { readonly seconds: number; readonly words: string }[] = [
    { seconds: curve.safeAfter, words: 'worst case' },
    ...(labelWait === undefined ? [] : [{ seconds: labelWait, words: 'label' }]),
    ...(writtenWait === undefined ? [] : [{ seconds: writtenWait, words: 'written' }])
  ]
  const momentMarks = moments.flatMap(({ seconds, words }, index): readonly PlotMark[] => {
    const at = x(seconds)
    const fits = at - frame.left > words.length * letter + gap
    const place = { x: fits ? at - gap : at + gap, y: frame.top + 12 + 14 * index }
    return [upright('wait', seconds), text(place, fits ? 'end' : 'start', words)]
  })
  const safeWords = `safe ${plainNumber(curve.safe, 4)} ${curve.unit}`
  const safeEnd = width - frame.right - gap
  const crossed = moments.some(
    ({ seconds }) => x(seconds) < safeEnd + gap && x(seconds) > safeEnd - safeWords.length * letter
  )
  const safeText = text(
    { x: crossed ? frame.left + gap : safeEnd, y: y(curve.safe) - 4 },
    crossed ? 'start' : 'end',
    safeWords
  )
  const safeTime = `${plainNumber(curve.safeAfter / timeUnit.seconds, 3)} ${timeUnit.unit}`
  const marks: readonly PlotMark[] = [
    { kind: 'area', points: [...curve.slow.map(place), ...curve.fast.map(place).reverse()] },
    ...scale.steps.flatMap((level) => [
      across('grid', level),
      text({ x: frame.left - 6, y: y(level) + 4 }, 'end', plainNumber(level, 6))
    ]),
    ...times.steps.map((step) =>
      text({ x: x(step * timeUnit.seconds), y: height - frame.bottom + 16 }, 'middle', plainNumber(step, 6))
    ),
    across('axis', scale.start),
    upright('axis', 0),
    { kind: 'line', use: 'fast', points: curve.fast.map(place) },
    { kind: 'line', use: 'slow', points: curve.slow.map(place) },
    across('safe', curve.safe),
    ...momentMarks,
    text({ x: frame.left, y: 16 }, 'start', `${curve.title}, ${curve.unit}`),
    text({ x: width - frame.right, y: height - 8 }, 'end', `time, ${timeUnit.unit}`),
    safeText
  ]
  return {
    width,
    height,
    title,
    description: `In the worst case it takes ${safeTime} to fall to ${plainNumber(curve.safe, 4)} ${curve.unit}.`,
    marks
  }
}

function timeUnitFor(seconds: number): { readonly unit: string; readonly seconds: number } {
  if (seconds >= 2 * 3600) return { unit: 'h', seconds: 3600 }
  if (seconds >= 180) return { unit: 'min', seconds: 60 }
  return seconds >= 1 ? { unit: 's', seconds: 1 } : { unit: 'ms', seconds: 0.001 }
}

/** Hundredths of a point are finer than any printer. */
function round(value: number): number {
  return Math.round(value * 100) / 100
}

/** Four to eight round steps that hold both ends. */
function roundScale(
  low: number,
  high: number
): { readonly start: number; readonly end: number; readonly steps: readonly number[] } {
  const span = Math.max(high - low, Number.MIN_VALUE)
  const rough = span / 5
  const power = 10 ** Math.floor(Math.log10(rough))
  const step = [1, 2, 5, 10].map((size) => size * power).find((size) => size >= rough) ?? rough
  const first = Math.floor(low / step)
  const last = Math.ceil(high / step)
  // Multiples of the step, so that no error adds up; the last digits are noise of the binary form.
  const at = (index: number): number => Number((index * step).toPrecision(12))
  return {
    start: at(first),
    end: at(last),
    steps: Array.from({ length: last - first + 1 }, (_, index) => at(first + index))
  }
}
