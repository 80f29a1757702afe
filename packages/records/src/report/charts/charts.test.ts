import { describe, expect, it } from 'vitest'
import type { AuditAnswer, AuditReport, AuditWait, HangingNow, RunAudit } from '../../audit/report.js'
import { type Chart, type ChartMark, hatched, roundUp, shortened } from './chart.js'
import { chartsOf } from './charts-of.js'

const run = (month: string, answer: AuditAnswer, more: object = {}): RunAudit =>
  ({
    answer,
    summary: { openedAt: `${month}-03T08:00:00.000Z`, procedure: 'F12-BEARING' },
    waits: [],
    deviations: [],
    ...more
  }) as unknown as RunAudit
const deviation = { seq: 3, at: '', by: '', title: '', reason: '' }
const wait = (needed: number, waited: number): AuditWait => ({
  seq: 9,
  title: 'Discharge',
  source: null,
  needed,
  waited
})
const lock = (hours: number | null) => ({ hours }) as HangingNow

const report = (runs: readonly RunAudit[], hanging: readonly HangingNow[] = []): AuditReport =>
  ({ runs, hanging }) as unknown as AuditReport

function chart(id: Chart['id'], of: AuditReport): Chart {
  return chartsOf(of).find((one) => one.id === id) ?? expect.fail(`no chart ${id}`)
}
const boxes = ({ marks }: Chart, fill: string): readonly Extract<ChartMark, { kind: 'box' }>[] =>
  marks.flatMap((mark) => (mark.kind === 'box' && mark.fill === fill ? [mark] : []))
const rings = ({ marks }: Chart): number => marks.filter(({ kind }) => kind === 'ring').length

describe('the charts of a report', () => {
  it('are those of which there is something to show', () => {
    expect(chartsOf(report([]))).toEqual([])
    const all = report([run('2026-01', 'good', { deviations: [deviation], waits: [wait(300, 301)] })], [lock(3)])
    expect(chartsOf(all).map(({ id }) => id)).toEqual(['months', 'deviations', 'waits', 'locks'])
  })

  it('stack the runs of each month by their verdict, and leave no month out', () => {
    const months = chart(
      'months',
      report([
        run('2025-12', 'good'),
        run('2025-12', 'findings'),
        run('2025-12', 'findings'),
        run('2026-02', 'cannot-tell')
      ])
    )
    expect(months.alternate).toBe(
      'Runs by month. 2025-12: 1 good, 0 cannot tell, 2 findings; 2026-01: 0 good, 0 cannot tell, 0 findings; 2026-02: 0 good, 1 cannot tell, 0 findings.'
    )
    // The first of each is the one of the legend.
    const [, good] = boxes(months, 'empty').filter(({ x }) => x < 60)
    const [, dark] = boxes(months, 'dark')
    expect(dark?.height).toBeCloseTo(
      (boxes(months, 'empty').find(({ x, y }) => x === dark?.x && y > 20)?.height ?? 0) * 2
    )
    expect(good).toBeUndefined()
    expect(
      chart(
        'months',
        report(
          Array.from({ length: 30 }, (_, n) =>
            run(`${2024 + Math.floor(n / 12)}-${String((n % 12) + 1).padStart(2, '0')}`, 'good')
          )
        )
      ).title
    ).toContain('the last 24 months')
  })

  it('mark a wait that was ended too early by another shape than one that was kept', () => {
    const waits = chart(
      'waits',
      report([run('2026-01', 'good', { waits: [wait(300, 300), wait(300, 299.9), wait(60, 4000), wait(0, 0)] })])
    )
    expect(rings(waits)).toBe(3)
    expect(waits.alternate).toContain('3 ended, 1 of them too early. "Discharge": 299.9 s of 300 s.')
  })

  it('count locks by age, each in one place, the hours at the edges too', () => {
    const locks = chart('locks', report([], [0, 11.9, 12, 23.9, 24, 168, 719, 720, -2].map(lock).concat(lock(null))))
    expect(locks.alternate).toBe(
      'Locks that hang now, by age. up to 12 hours: 3 locks; 12 to 24 hours: 2 locks; 1 to 7 days: 1 lock; 7 to 30 days: 2 locks; over 30 days: 1 lock; age not known: 1 lock.'
    )
  })

  it('stay inside their frame, whatever the figures', () => {
    const many = Array.from({ length: 40 }, (_, n) =>
      run(`2026-${String((n % 12) + 1).padStart(2, '0')}`, 'good', {
        summary: {
          openedAt: `2026-${String((n % 12) + 1).padStart(2, '0')}-03T08:00:00.000Z`,
          procedure: `${'A very long name of a procedure '.repeat(3)}${n}`
        },
        deviations: Array.from({ length: n * 37 }, () => deviation),
        waits: [wait(1, 1_000_000), wait(1_000_000, 1)]
      })
    )
    for (const { id, width, height, marks } of chartsOf(report(many, [lock(5), lock(1e6)]))) {
      for (const mark of marks) {
        const points =
          mark.kind === 'line'
            ? mark.points
            : mark.kind === 'box'
              ? [[mark.x, mark.y] as const, [mark.x + mark.width, mark.y + mark.height] as const]
              : [[mark.x, mark.y] as const]
        for (const [x, y] of points) {
          expect([id, x >= -1 && x <= width + 1, y >= -1 && y <= height + 1]).toEqual([id, true, true])
        }
      }
    }
  })

  it('hatch no further than the box', () => {
    for (const mark of hatched(10, 20, 33, 7)) {
      if (mark.kind !== 'line') continue
      for (const [x, y] of mark.points) expect([x >= 10 && x <= 43, y >= 20 && y <= 27]).toEqual([true, true])
    }
  })

  it('round up to 1, 2 or 5, and shorten with an ellipsis', () => {
    expect([0, 1, 3, 7, 11, 100, 101, 2001].map(roundUp)).toEqual([1, 1, 5, 10, 20, 100, 200, 5000])
    expect(shortened('abcdef', 4)).toBe('abc…')
    expect(shortened('abcd', 4)).toBe('abcd')
  })
})
