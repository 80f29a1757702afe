import type { AuditReport, HangingNow } from '../../audit/report.js'
import { barsChart } from './bars-chart.js'
import type { Chart } from './chart.js'
import { monthsChart } from './months-chart.js'
import { waitsChart } from './waits-chart.js'

const mostBars = 20

/** The charts of a report, those of which there is something to show. */
export function chartsOf(report: AuditReport): readonly Chart[] {
  return [
    monthsChart(report.runs),
    deviationsChart(report),
    waitsChart(report.runs.flatMap(({ waits }) => waits)),
    locksChart(report.hanging)
  ].filter((chart) => chart !== null)
}

function deviationsChart({ runs }: AuditReport): Chart | null {
  const counts = new Map<string, number>()
  for (const { summary, deviations } of runs) {
    if (summary === null || deviations.length === 0) continue
    counts.set(summary.procedure, (counts.get(summary.procedure) ?? 0) + deviations.length)
  }
  if (counts.size === 0) return null
  const ordered = [...counts].toSorted(([a, one], [b, other]) => other - one || (a < b ? -1 : 1))
  const title = `Deviations by procedure${ordered.length > mostBars ? `, the ${mostBars} with most of ${ordered.length}` : ''}`
  const bars = ordered.slice(0, mostBars).map(([label, value]) => ({ label, value, grave: false }))
  return barsChart('deviations', title, bars, 'deviation')
}

const day = 24
const ages = [
  { label: 'up to 12 hours', below: 12, grave: false },
  { label: '12 to 24 hours', below: day, grave: false },
  { label: '1 to 7 days', below: 7 * day, grave: true },
  { label: '7 to 30 days', below: 30 * day, grave: true },
  { label: 'over 30 days', below: Number.POSITIVE_INFINITY, grave: true }
] as const

function locksChart(hanging: readonly HangingNow[]): Chart | null {
  if (hanging.length === 0) return null
  const unknown = hanging.filter(({ hours }) => hours === null).length
  const bars = ages.map(({ label, below, grave }, index) => {
    const from = ages[index - 1]?.below ?? Number.NEGATIVE_INFINITY
    const value = hanging.filter(({ hours }) => hours !== null && hours >= from && hours < below).length
    return { label, value, grave }
  })
  return barsChart(
    'locks',
    'Locks that hang now, by age',
    [...bars, ...(unknown === 0 ? [] : [{ label: 'age not known', value: unknown, grave: true }])],
    'lock'
  )
}
