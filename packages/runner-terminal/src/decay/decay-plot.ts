import { convert, curvePoints } from '@lockwright/energy'
import { clockTime } from '../text/clock-time.js'
import { columnsOf, pad } from '../text/columns.js'
import type { DecaySeries } from './decay-series.js'
import { inUnit, judge } from './tell-decay.js'

/** How much room a plot has. */
export interface PlotSize {
  readonly columns: number
  readonly rows: number
}

export const smallPlot: PlotSize = { columns: 38, rows: 7 }

/** Two clock times and a gap between them; less tells nothing. */
const leastAcross = 18

/**
 * The readings of a series against the band in which the declaration lets it fall, from the first of them on, in plain
 * characters. Empty where there are no readings, or the library cannot judge them.
 */
export function decayPlot(series: DecaySeries, size: PlotSize = smallPlot): readonly string[] {
  const { readings, unit, siUnit } = series
  const judged = judge(series)
  const [first] = readings
  const last = readings.at(-1)
  if (judged.kind !== 'judged' || first === undefined || last === undefined) return []
  const shown = (level: number): number => inUnit(level, siUnit, unit)
  const safe = shown(judged.safe)
  const span = (Date.parse(last.at) - Date.parse(first.at)) / 1000
  const band = bandOf(series, first.value, judged.model)
  const until = untilOf(span, judged.fit, band.slow?.safeAfter)
  const top = Math.max(safe, ...readings.map(({ value }) => value))
  const bottom = Math.min(0, safe)
  const axis = (value: number): string => `${Number(value.toPrecision(3))} ${unit}`
  const labelWidth = Math.max(columnsOf(axis(top)), columnsOf(axis(bottom)))
  const across = Math.max(leastAcross, size.columns - labelWidth - 2)
  const rows = Math.max(4, size.rows)
  const canvas = Array.from({ length: rows }, () => Array.from({ length: across }, () => ' '))
  const put = (seconds: number, value: number, mark: string): void => {
    const column = Math.round((until === 0 ? 0 : seconds / until) * (across - 1))
    const line = Math.round(((top - value) / (top - bottom)) * (rows - 1))
    const cells = canvas[line]
    if (cells !== undefined && column >= 0 && column < across) cells[column] = mark
  }
  const moments = Array.from({ length: across }, (_, column) => (column / (across - 1)) * until)
  const draw = (levelAt: (seconds: number) => number | undefined, mark: string): void => {
    for (const seconds of moments) {
      const level = levelAt(seconds)
      if (level !== undefined) put(seconds, level, mark)
    }
  }
  draw(() => safe, '-')
  if (band.fast !== undefined) draw(band.fast, ',')
  if (band.slow !== undefined) draw(band.slow.levelAt, '.')
  for (const { at, value } of readings) put((Date.parse(at) - Date.parse(first.at)) / 1000, value, 'o')
  const from = clockTime(first.at)
  const to = clockTime(new Date(Date.parse(first.at) + until * 1000).toISOString())
  const gutter = ' '.repeat(labelWidth)
  return [
    ...canvas.map((cells, line) => {
      const label = line === 0 ? axis(top) : line === rows - 1 ? axis(bottom) : ''
      return `${' '.repeat(labelWidth - columnsOf(label))}${label} |${cells.join('').trimEnd()}`
    }),
    `${gutter} +${'-'.repeat(across)}`,
    `${gutter}  ${until === 0 ? from : `${pad(from, across - columnsOf(to))}${to}`}`,
    `o read; - safe: ${axis(safe)}`,
    ...(band.slow === undefined
      ? []
      : [band.fast === undefined ? '. slowest that is declared' : '. slowest declared, and , fastest'])
  ]
}

/** A prediction far ahead of all readings would press them together at the edge. */
function untilOf(span: number, fit: Fit, safeAfter: number | undefined): number {
  if (span > 0) return fit.kind === 'falling' ? Math.max(span, Math.min(fit.safeAt.best, 3 * span)) : span
  return safeAfter === undefined || !Number.isFinite(safeAfter) ? 0 : safeAfter
}

type Judged = Extract<ReturnType<typeof judge>, { readonly kind: 'judged' }>
type Fit = Judged['fit']
type Model = Judged['model']

interface Band {
  readonly slow?: {
    readonly levelAt: (seconds: number) => number | undefined
    /** Seconds to the safe level at the latest. */
    readonly safeAfter: number
  }
  readonly fast?: (seconds: number) => number | undefined
}

/** From the first reading on: how fast a level falls hangs on nothing but the level. */
function bandOf({ source, unit, siUnit }: DecaySeries, begun: number, model: Model): Band {
  const curve = curvePoints(source, 200)
  const asked = curve === undefined ? undefined : comparable(curve.unit, unit)
  if (curve !== undefined && asked !== undefined) {
    const line = (points: typeof curve.slow) => points.map(({ seconds, level }) => ({ seconds, level: asked(level) }))
    const slow = from(line(curve.slow), begun)
    const fast = from(line(curve.fast), begun)
    if (slow !== undefined && fast !== undefined) {
      return { slow: { levelAt: slow, safeAfter: timeTo(line(curve.slow), begun, asked(curve.safe)) }, fast }
    }
  }
  const { slowest } = model
  if (slowest === undefined) return {}
  const levelAt = (seconds: number): number =>
    inUnit(slowestAt(model, slowest, inUnit(begun, unit, siUnit), seconds), siUnit, unit)
  return { slow: { levelAt, safeAfter: Number.POSITIVE_INFINITY } }
}

type Points = readonly { readonly seconds: number; readonly level: number }[]

/** The same line from the moment on at which it passes this level; undefined where it begins below. */
function from(points: Points, level: number): ((seconds: number) => number | undefined) | undefined {
  const start = momentOf(points, level)
  return start === undefined ? undefined : (seconds) => levelOf(points, start + seconds)
}

function timeTo(points: Points, level: number, safe: number): number {
  const start = momentOf(points, level)
  const end = momentOf(points, safe)
  return start === undefined || end === undefined ? Number.POSITIVE_INFINITY : Math.max(0, end - start)
}

function momentOf(points: Points, level: number): number | undefined {
  for (const [index, { seconds, level: at }] of points.entries()) {
    if (at > level) continue
    const before = points[index - 1]
    if (before === undefined) return at === level ? seconds : undefined
    return before.seconds + ((before.level - level) / (before.level - at)) * (seconds - before.seconds)
  }
  return undefined
}

function levelOf(points: Points, moment: number): number | undefined {
  const next = points.findIndex(({ seconds }) => seconds >= moment)
  const after = points[next]
  const before = points[next - 1]
  if (after === undefined) return undefined
  if (before === undefined || after.seconds === before.seconds) return after.level
  return before.level + ((moment - before.seconds) / (after.seconds - before.seconds)) * (after.level - before.level)
}

/** Levels of the curve in the unit that was asked for; undefined where it measures something else. */
function comparable(curve: string, asked: string): ((level: number) => number) | undefined {
  return convert(0, curve, asked).ok ? (level) => inUnit(level, curve, asked) : undefined
}

/** `slowest`: seconds for an exponential, level a second for a line. */
function slowestAt(model: Model, slowest: number, begun: number, seconds: number): number {
  switch (model.kind) {
    case 'exponential':
      return model.floor + (begun - model.floor) * Math.exp(-seconds / slowest)
    case 'linear':
      return Math.max(0, begun - slowest * seconds)
  }
}
