import type { AuditAnswer, RunAudit } from '../../audit/report.js'
import { boxOf, type Chart, type ChartMark, chartWidth, hatched, lineOf, roundUp, textAt } from './chart.js'

const plot = { left: 46, top: 34, bottom: 150, height: 172 }
const mostMonths = 24
const answers = ['good', 'cannot-tell', 'findings'] as const
const words: Readonly<Record<AuditAnswer, string>> = {
  good: 'good',
  'cannot-tell': 'cannot tell',
  findings: 'findings'
}

type Month = { readonly month: string } & Readonly<Record<AuditAnswer, number>>

/** Runs by the month in which they were opened, stacked by their verdict. */
export function monthsChart(runs: readonly RunAudit[]): Chart | null {
  const all = monthsOf(runs)
  if (all.length === 0) return null
  const months = all.slice(-mostMonths)
  const highest = roundUp(Math.max(...months.map(totalOf)))
  const step = (chartWidth - plot.left - 10) / months.length
  const width = Math.min(step * 0.7, 46)
  const scale = (plot.bottom - plot.top) / highest
  const every = Math.ceil((months.length * 46) / (chartWidth - plot.left))
  const earlier = all.length - months.length
  return {
    id: 'months',
    title: `Runs by month of opening${earlier === 0 ? '' : `, the last ${mostMonths} months`}`,
    width: chartWidth,
    height: plot.height,
    marks: [
      ...legend(),
      ...[0, highest / 2, highest].flatMap((value): readonly ChartMark[] =>
        Number.isInteger(value)
          ? [
              lineOf(
                [
                  [plot.left, plot.bottom - value * scale],
                  [chartWidth - 10, plot.bottom - value * scale]
                ],
                value === 0 ? 1 : 0.25
              ),
              textAt(String(value), plot.left - 5, plot.bottom - value * scale + 4, 'end')
            ]
          : []
      ),
      ...months.flatMap((month, index) => {
        const x = plot.left + index * step + (step - width) / 2
        const label = index % every === 0 ? [textAt(month.month, x + width / 2, plot.bottom + 15, 'middle')] : []
        return [...column(month, x, width, scale), ...label]
      })
    ],
    alternate: `Runs by month. ${months.map(tell).join('; ')}.`
  }
}

function column(month: Month, x: number, width: number, scale: number): readonly ChartMark[] {
  const marks: ChartMark[] = []
  let y = plot.bottom
  for (const answer of answers) {
    const height = month[answer] * scale
    if (height === 0) continue
    y -= height
    marks.push(...filled(answer, x, y, width, height))
  }
  const total = totalOf(month)
  return total === 0 ? marks : [...marks, textAt(String(total), x + width / 2, y - 3, 'middle')]
}

function filled(answer: AuditAnswer, x: number, y: number, width: number, height: number): readonly ChartMark[] {
  if (answer === 'cannot-tell') return hatched(x, y, width, height)
  return [boxOf(x, y, width, height, answer === 'good' ? 'empty' : 'dark')]
}

function legend(): readonly ChartMark[] {
  return answers.flatMap((answer, index) => {
    const x = plot.left + index * 110
    return [...filled(answer, x, 4, 18, 11), textAt(words[answer], x + 24, 14)]
  })
}

/** Every month from the first run to the last, those without one as well. */
function monthsOf(runs: readonly RunAudit[]): readonly Month[] {
  const counts = new Map<string, Record<AuditAnswer, number>>()
  for (const { summary, answer } of runs) {
    if (summary === null) continue
    const month = summary.openedAt.slice(0, 7)
    const count = counts.get(month) ?? { good: 0, 'cannot-tell': 0, findings: 0 }
    count[answer] += 1
    counts.set(month, count)
  }
  const known = [...counts.keys()].toSorted()
  const [first = '', last = ''] = [known[0], known.at(-1)]
  const months: Month[] = []
  for (let month = first; month !== '' && month <= last; month = nextMonth(month)) {
    months.push({ month, ...(counts.get(month) ?? { good: 0, 'cannot-tell': 0, findings: 0 }) })
  }
  return months
}

function nextMonth(month: string): string {
  const [year = 0, number = 0] = month.split('-').map(Number)
  return new Date(Date.UTC(year, number, 1)).toISOString().slice(0, 7)
}

function totalOf(month: Month): number {
  return answers.reduce((sum, answer) => sum + month[answer], 0)
}

function tell(month: Month): string {
  return `${month.month}: ${answers.map((answer) => `${month[answer]} ${words[answer]}`).join(', ')}`
}
