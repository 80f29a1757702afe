import { describe, expect, it } from 'vitest'
import { forge } from '../../fixtures/forge.js'
import { keyFor, nothing, onRecord, replaced, seqOf } from '../../fixtures/on-record.js'
import { fanJob, type Step } from '../../fixtures/plant.js'
import type { Entry } from '../entry.js'

describe('timely', () => {
  const waitOver = seqOf('wait-over')

  it('a wait that was cut short by setting the clock forward is told', () => {
    // A run takes no such answer: it looks at the steady clock too. A journal that was written elsewhere may hold one.
    onRecord(({ journal, after }) => {
      const earlier = (at: string) => new Date(Date.parse(at) - 600_000).toISOString()
      const early = (entry: Entry): Entry =>
        entry.seq < waitOver
          ? entry
          : { ...entry, elapsed: entry.elapsed - 242_000, at: entry.seq > waitOver ? earlier(entry.at) : entry.at }
      expect(after(forge(journal, early, keyFor)).timely).toEqual([
        `doubt wait-doubtful ${waitOver}`,
        `fault clock-ran-back ${waitOver + 1}`
      ])
    })
  })

  it('clocks that ran back or fell behind are told', () => {
    onRecord(({ journal, after }) => {
      const back = forge(journal, (entry) => (entry.seq === 10 ? { ...entry, elapsed: 1 } : entry), keyFor)
      expect(after(back).timely).toContain('fault clock-ran-back 10')
      const late = (entry: Entry) => ({ ...entry, elapsed: entry.elapsed + (entry.seq >= 17 ? 60_000 : 0) })
      expect(after(forge(journal, late, keyFor)).timely).toEqual(['fault clock-set-back 17'])
    })
  })

  it('a step faster than a person can do it is told, with what it took', () => {
    const change = fanJob.findIndex((step) => step.event.kind === 'done' && step.event.state === 'change') + 2
    // The author wrote 20 minutes; a tenth of that is the least.
    onRecord(({ findings }) => expect(findings()).toEqual(nothing), replaced(change, { seconds: 120 }))
    onRecord(
      ({ report, findings }) => {
        expect(findings()).toEqual({ ...nothing, timely: [`fault too-fast ${change}`] })
        expect(report().runs[0]?.verdicts[3].findings[0]).toMatchObject({
          what: '"Change the fan bearing" was answered after 119 s; a person needs 120 s at the least.',
          where: `runs/fan.jsonl:${change}, at line 54 of the procedure`
        })
      },
      replaced(change, { seconds: 119 })
    )
    onRecord(({ findings }) => expect(findings().timely).toEqual(['fault too-fast 5']), [
      ...fanJob.slice(0, 2),
      {
        seconds: 1,
        by: 'odd',
        event: { kind: 'lock-hung', state: 'lock-q1', point: 'Q1', lock: '17' }
      },
      { seconds: 1, by: 'odd', event: fanJob[3]?.event ?? expect.fail('no step') }
    ] as readonly Step[])
  })
})
