import { count } from '../../audit/verdict.js'
import { boxOf, type Chart, type ChartMark, chartWidth, hatched, lineOf, shortened, textAt } from './chart.js'

export interface Bar {
  readonly label: string
  readonly value: number
  /** Stands out: filled dark in place of hatched. */
  readonly grave: boolean
}

const plot = { left: 150, top: 6, row: 22, bar: 14 }

/** Lying bars with their figures behind them. */
export function barsChart(id: Chart['id'], title: string, bars: readonly Bar[], noun: string): Chart {
  const most = Math.max(1, ...bars.map(({ value }) => value))
  const scale = (chartWidth - plot.left - 60) / most
  const bottom = plot.top + bars.length * plot.row
  const marks = bars.flatMap(({ label, value, grave }, index): readonly ChartMark[] => {
    const y = plot.top + index * plot.row
    const width = value * scale
    const bar = grave ? [boxOf(plot.left, y, width, plot.bar, 'dark')] : hatched(plot.left, y, width, plot.bar)
    return [
      textAt(shortened(label, 20), plot.left - 6, y + 11, 'end'),
      ...(value === 0 ? [] : bar),
      textAt(String(value), plot.left + width + 6, y + 11)
    ]
  })
  return {
    id,
    title,
    width: chartWidth,
    height: bottom + 8,
    marks: [
      ...marks,
      lineOf(
        [
          [plot.left, plot.top - 3],
          [plot.left, bottom]
        ],
        1
      )
    ],
    alternate: `${title}. ${bars.map(({ label, value }) => `${label}: ${count(value, noun)}`).join('; ')}.`
  }
}
