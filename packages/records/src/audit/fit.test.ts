import { describe, expect, it } from 'vitest'
import { forge } from '../../fixtures/forge.js'
import { inEvent, keyFor, lastSeq, nothing, onRecord, seqOf, signedSeq } from '../../fixtures/on-record.js'
import { fanJob, plantPeople, type Step, writeRoster } from '../../fixtures/plant.js'
import type { BareEvent } from '../entry.js'
import type { Site } from '../site.js'

describe('fit', () => {
  const withPeople = (change: (one: (typeof plantPeople)[number]) => (typeof plantPeople)[number]) => (site: Site) =>
    writeRoster(site, plantPeople.map(change), 2)

  it('a signature after the key was revoked is told, one before is not spoiled', () => {
    onRecord(({ site, findings, journal }) => {
      const at = JSON.parse(journal.split('\n')[signedSeq - 1] ?? '').at
      const revoke = (from: string) =>
        withPeople((one) => (one.id === 'runa' ? { ...one, revokedAt: from } : one))(site)
      revoke(new Date(Date.parse(at) + 1).toISOString())
      // Without another key Runa does not work here any more; what she did then is told for itself.
      const later = [1, 2, 3].map((after) => `fault not-here-any-more ${signedSeq + after}`)
      expect(findings()).toEqual({ ...nothing, fit: later })
      revoke(at)
      expect(findings().fit).toEqual([`fault key-revoked ${signedSeq}`, ...later])
      expect(findings().whole).toEqual([])
    })
  })

  it('who did not hold the qualification that day is told, entry by entry', () => {
    onRecord(({ site, findings }) => {
      withPeople((one) => (one.id === 'runa' ? { ...one, qualifications: [] } : one))(site)
      expect(findings().fit).toEqual([13, 14, 15, 16].map((seq) => `fault not-qualified ${seq}`))
    })
  })

  it('who is not on the roster is told once', () => {
    onRecord(({ site, findings }) => {
      writeRoster(
        site,
        plantPeople.filter((one) => one.id !== 'odd'),
        2
      )
      expect(findings().fit).toEqual(['fault not-on-roster 1'])
      expect(findings().whole).toEqual([`doubt unsigned-end ${signedSeq + 1}`, `fault signature-bad ${lastSeq}`])
    })
  })

  const live = (after: readonly Step[]): readonly Step[] => [
    ...fanJob.slice(0, seqOf('reading') - 2),
    {
      seconds: 30,
      by: 'runa',
      event: { kind: 'reading', state: 'prove-dead', input: 'L1-L2', value: 400, typed: '400 V' } as BareEvent
    },
    ...after
  ]
  const proving = seqOf('reading')

  it('a live reading while proving dead is told, with what came of it, though it was read dead afterwards', () => {
    onRecord(
      ({ report, findings }) => {
        expect(findings()).toEqual({ ...nothing, fit: [`doubt read-live ${proving}`] })
        const run = report().runs[0]
        expect(run?.verdicts[2].findings[0]?.what).toBe(
          `While \`mains\` was to be proven dead, L1 to L2 was read as 400 V; the limit is below 50 V. It was next read as 0 V, at entry ${proving + 1}. Nothing was noted of it.`
        )
        expect(run?.verdicts[2].checked.at(-1)).toBe(
          '4 readings against the limits of the machine; 1 of them live where it was to be dead'
        )
        expect(run?.entries.filter((entry) => entry.mark !== '').map((entry) => [entry.seq, entry.mark])).toEqual([
          [proving, 'LIVE: the limit is below 50 V']
        ])
      },
      live(fanJob.slice(proving - 2))
    )
  })

  it('a run that broke off at a live reading is not fit, and what was noted is told', () => {
    const stopped: Step = {
      seconds: 30,
      by: 'runa',
      event: { kind: 'stopped', reason: 'Q1 does not open', left: 'Q1 locked, cover shut' },
      signed: true
    }
    onRecord(
      ({ report, findings }) => {
        expect(findings().fit).toEqual([`doubt read-live ${proving}`])
        expect(report().runs[0]?.verdicts[2].findings[0]?.what).toContain(
          `It was not read again. What was noted: "Looking for the fault" (entry ${proving + 1}); stopped, "Q1 does not open" (entry ${proving + 2})`
        )
      },
      live([{ seconds: 9, by: 'runa', event: { kind: 'note', text: 'Looking for the fault' } }, stopped])
    )
  })

  it('a step passed with a reading outside its limits is told, by arithmetic of its own', () => {
    onRecord(({ journal, after }) => {
      const dc = seqOf('reading') + 1
      for (const [value, expected] of [
        [49.9, 0],
        [50, 1],
        [-600, 1],
        [-49, 0]
      ] as const) {
        const changed = forge(
          journal,
          (entry) => (entry.seq === dc ? inEvent(entry, { value, typed: `${value} V` }) : entry),
          keyFor
        )
        const findings = after(changed)
        expect([value, findings.followed.length]).toEqual([value, expected])
      }
    })
  })
})
