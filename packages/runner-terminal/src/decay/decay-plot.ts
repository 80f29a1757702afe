import { clockTime } from '../text/clock-time.js'
import type { DecaySeries } from './decay-series.js'
import { inUnit, judge } from './tell-decay.js'

const across = 28
const rows = 7
const labelWidth = 8

/**
 * The readings of a series against the slowest fall that the declaration allows, from the first of them on: at most 38
 * columns of plain characters. Empty where fewer than two readings were taken, or the library cannot judge them.
 */
export function decayPlot(series: DecaySeries): readonly string[] {
  const { readings, unit, siUnit } = series
  const judged = judge(series)
  const [first] = readings
  const last = readings.at(-1)
  if (judged.kind !== 'judged' || first === undefined || last === undefined || readings.length < 2) return []
  const shown = (level: number): number => inUnit(level, siUnit, unit)
  const safe = shown(judged.safe)
  const span = (Date.parse(last.at) - Date.parse(first.at)) / 1000
  const { fit, model } = judged
  // A prediction far ahead of all readings would press them together at the edge.
  const until = fit.kind === 'falling' ? Math.max(span, Math.min(fit.safeAt.best, 3 * span)) : span
  const top = Math.max(safe, ...readings.map(({ value }) => value))
  const bottom = Math.min(0, safe)
  const canvas = Array.from({ length: rows }, () => Array.from({ length: across }, () => ' '))
  const put = (seconds: number, value: number, mark: string): void => {
    const column = Math.round((seconds / until) * (across - 1))
    const line = Math.round(((top - value) / (top - bottom)) * (rows - 1))
    const cells = canvas[line]
    if (cells !== undefined && column >= 0 && column < across) cells[column] = mark
  }
  const moments = Array.from({ length: across }, (_, column) => (column / (across - 1)) * until)
  for (const seconds of moments) put(seconds, safe, '-')
  if (model.slowest !== undefined) {
    const begun = inUnit(first.value, unit, siUnit)
    for (const seconds of moments) put(seconds, shown(slowestAt(model, model.slowest, begun, seconds)), '.')
  }
  for (const { at, value } of readings) put((Date.parse(at) - Date.parse(first.at)) / 1000, value, 'o')
  const axis = (value: number): string => `${Number(value.toPrecision(3))} ${unit}`.padStart(labelWidth)
  const from = clockTime(first.at)
  const to = clockTime(new Date(Date.parse(first.at) + until * 1000).toISOString())
  return [
    ...canvas.map((cells, line) => {
      const label = line === 0 ? axis(top) : line === rows - 1 ? axis(bottom) : ' '.repeat(labelWidth)
      return `${label} |${cells.join('').trimEnd()}`
    }),
    `${' '.repeat(labelWidth)} +${'-'.repeat(across)}`,
    `${' '.repeat(labelWidth + 2)}${from}${to.padStart(across - from.length)}`,
    `o read; - safe: ${axis(safe).trim()}`,
    ...(model.slowest === undefined ? [] : ['. slowest that is declared'])
  ]
}

type Model = Extract<ReturnType<typeof judge>, { readonly kind: 'judged' }>['model']

/** `slowest`: seconds for an exponential, level a second for a line. */
function slowestAt(model: Model, slowest: number, begun: number, seconds: number): number {
  switch (model.kind) {
    case 'exponential':
      return model.floor + (begun - model.floor) * Math.exp(-seconds / slowest)
    case 'linear':
      return Math.max(0, begun - slowest * seconds)
  }
}
