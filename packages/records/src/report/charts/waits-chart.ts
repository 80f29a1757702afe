import type { AuditWait } from '../../audit/report.js'
import { type Chart, type ChartMark, chartWidth, crossAt, lineOf, textAt } from './chart.js'

const plot = { left: 64, right: 20, top: 26, bottom: 220, height: 262 }
/** A drawing of more marks than this shows nothing more; equal ones are drawn once. */
const mostPoints = 400

/** Each wait as it was kept against the least that was computed or written, both on a scale of powers of ten. */
export function waitsChart(waits: readonly AuditWait[]): Chart | null {
  const shown = waits.filter(({ needed }) => needed > 0)
  if (shown.length === 0) return null
  const values = shown.flatMap(({ needed, waited }) => [needed, Math.max(waited, 1)])
  const low = Math.floor(Math.log10(Math.min(...values)))
  const high = Math.max(low + 1, Math.ceil(Math.log10(Math.max(...values))))
  const wide = chartWidth - plot.left - plot.right
  const x = (seconds: number) => plot.left + (wide * (Math.log10(seconds) - low)) / (high - low)
  const y = (seconds: number) =>
    plot.bottom - ((plot.bottom - plot.top) * (Math.log10(Math.max(seconds, 10 ** low)) - low)) / (high - low)
  const decades = Array.from({ length: high - low + 1 }, (_, index) => 10 ** (low + index))
  const short = shown.filter(({ needed, waited }) => waited < needed)
  const kept = shown.filter(({ needed, waited }) => waited >= needed)
  return {
    id: 'waits',
    title: 'Waits against the least wait',
    width: chartWidth,
    height: plot.height,
    marks: [
      { kind: 'ring', x: plot.left + 6, y: 10, radius: 3.5 },
      textAt('kept', plot.left + 16, 14),
      ...crossAt(plot.left + 76, 10),
      textAt('ended too early', plot.left + 86, 14),
      lineOf(
        [
          [plot.left + 206, 10],
          [plot.left + 232, 10]
        ],
        1.2,
        5
      ),
      textAt('the least wait', plot.left + 238, 14),
      ...decades.flatMap((value): readonly ChartMark[] => [
        lineOf(
          [
            [plot.left, y(value)],
            [chartWidth - plot.right, y(value)]
          ],
          0.25
        ),
        lineOf(
          [
            [x(value), plot.top],
            [x(value), plot.bottom]
          ],
          0.25
        ),
        textAt(tellSeconds(value), plot.left - 6, y(value) + 4, 'end'),
        textAt(tellSeconds(value), x(value), plot.bottom + 15, 'middle')
      ]),
      lineOf(
        [
          [x(10 ** low), y(10 ** low)],
          [x(10 ** high), y(10 ** high)]
        ],
        1.2,
        5
      ),
      textAt('least wait that the procedure asks for', plot.left + wide / 2, plot.bottom + 34, 'middle'),
      textAt('waited', 2, 14),
      ...distinct(kept, x, y).map(([left, top]): ChartMark => ({ kind: 'ring', x: left, y: top, radius: 3.5 })),
      ...distinct(short, x, y).flatMap(([left, top]) => crossAt(left, top))
    ],
    alternate: `Waits against the least wait: ${shown.length} ended, ${short.length} of them too early.${short
      .map(({ title, needed, waited }) => ` "${title}": ${waited} s of ${needed} s.`)
      .slice(0, 20)
      .join('')}`
  }
}

function distinct(
  waits: readonly AuditWait[],
  x: (seconds: number) => number,
  y: (seconds: number) => number
): readonly (readonly [number, number])[] {
  const places = new Map<string, readonly [number, number]>()
  for (const { needed, waited } of waits) {
    const place = [Math.round(x(needed) * 2) / 2, Math.round(y(waited) * 2) / 2] as const
    places.set(place.join(' '), place)
  }
  return [...places.values()].slice(0, mostPoints)
}

function tellSeconds(seconds: number): string {
  return seconds >= 100_000 ? `${(seconds / 3600).toFixed(0)} h` : `${seconds} s`
}
