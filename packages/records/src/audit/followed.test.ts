import { rmSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { fanMachine } from '../../fixtures/fan-machine.js'
import { forge } from '../../fixtures/forge.js'
import { keyFor, nothing, onRecord } from '../../fixtures/on-record.js'
import { fanJob, type Step, scriptedClock, signerOf } from '../../fixtures/plant.js'
import type { Entry } from '../entry.js'
import { issue } from '../issue.js'
import { formatAuditText } from '../report/format-audit-text.js'
import { layout, type Site } from '../site.js'

describe('followed', () => {
  it('a gate that was passed without what it asks for is told, though every signature is good', () => {
    onRecord(({ journal, after }) => {
      const tryout = fanJob.findIndex((step) => step.event.kind === 'done' && step.event.state === 'try') + 2
      const skipped = forge(journal, (entry) => (entry.seq === tryout ? null : entry), keyFor)
      const findings = after(skipped)
      expect(findings.whole).toEqual([])
      expect(findings.followed).toEqual([`fault does-not-replay ${tryout}`])
      expect(findings.fit).toEqual([`doubt not-all-looked-at ${tryout}`])
      expect(findings.timely).toEqual([`doubt not-all-looked-at ${tryout}`])
    })
  })

  it('an entry that says it stood elsewhere is told', () => {
    onRecord(({ journal, after }) => {
      const moved = forge(
        journal,
        (entry) => (entry.seq === 3 ? { ...entry, state: 'end' as Entry['state'] } : entry),
        keyFor
      )
      expect(after(moved).followed).toEqual(['fault does-not-replay 3'])
    })
  })

  it('an open run, a draft and a rehearsal cannot be told to be well', () => {
    onRecord(({ findings }) => expect(findings().followed).toEqual(['doubt still-open 5']), fanJob.slice(0, 4))
    onRecord(
      ({ findings, report }) => {
        expect(findings().followed).toEqual(['doubt draft 1'])
        expect(findings().whole).toEqual([])
        expect(report().runs[0]?.issue).not.toBeNull()
      },
      fanJob,
      'draft'
    )
    onRecord(({ findings }) => expect(findings().followed).toEqual(['doubt rehearsal 1']), fanJob, 'rehearsal')
  })

  it('a stop by hand ends a run well, unless the equipment was left open', () => {
    const stop = (left: object): readonly Step[] => [
      ...fanJob.slice(0, 4),
      { seconds: 30, by: 'odd', event: { kind: 'stopped', reason: 'No spare bearing', ...left }, signed: true }
    ]
    onRecord(({ findings }) => expect(findings()).toEqual({ ...nothing, due: ['fault lock-left 4'] }), stop({}))
    onRecord(
      ({ findings }) => expect(findings().followed).toEqual(['fault stopped-open 6']),
      stop({ left: 'Cover off, guarded by Liv' })
    )
  })

  it('locks that hang by the record of an open or a stopped run are told, by whom and since when', () => {
    const open = fanJob.slice(0, 4)
    const stopped: Step = { seconds: 30, by: 'odd', event: { kind: 'stopped', reason: 'No bearing' }, signed: true }
    for (const steps of [open, [...open, stopped]]) {
      onRecord(({ report }) => {
        const run = report().runs[0]
        const since = run?.entries[3]?.at
        expect(run?.locks).toEqual([{ lock: '17', point: 'Q1', by: 'Odd Teig (odd)', since, asOf: null }])
        expect(run?.verdicts[1].checked).toContain(
          `Still hanging by this record: lock 17 on Q1, Odd Teig (odd), since ${since}`
        )
      }, steps)
    }
    onRecord(({ report }) => expect(report().runs[0]?.locks).toEqual([]))
    onRecord(({ journal, after, report }) => {
      after(forge(journal, (entry) => (entry.seq === 6 ? null : entry)))
      expect(formatAuditText(report())).toMatch(
        /Hanging .*lock 17 on Q1, .*as of entry 6; what came after cannot be told/
      )
    })
    onRecord(({ report }) => expect(report().runs[0]?.locks).toEqual([]), open, 'rehearsal')
  })

  it('a run that was resumed before any lock hung is told as it was', () => {
    const resumed: Step = { seconds: 9, by: 'odd', event: { kind: 'resumed', locksOn: true } }
    const told = (steps: readonly Step[]) => {
      let last = ''
      onRecord(({ report }) => {
        last = report().runs[0]?.entries.at(-1)?.what ?? ''
      }, steps)
      return last
    }
    expect(told([...fanJob.slice(0, 1), resumed])).toBe('Resumed; no lock hung by the record')
    expect(told([...fanJob.slice(0, 4), resumed])).toBe('Resumed, every own lock seen on')
  })

  it('work dated before the issue is told; a draft that was issued later was not issued then', () => {
    const reissued = (site: Site) => {
      const digest = issue({ site, machine: fanMachine, signer: signerOf('birk'), clock: scriptedClock() })
      if (!digest.ok) return expect.fail('not issued')
      rmSync(layout.issueSignature(site, digest.value.machine))
      issue({ site, machine: fanMachine, signer: signerOf('birk'), clock: scriptedClock('2026-03-09T08:00:00.000Z') })
    }
    onRecord(({ site, findings, report }) => {
      expect(formatAuditText(report())).toContain('Issued by  Birk Amdal, 2026-03-02T08:00:00.000Z: Issued for use')
      reissued(site)
      expect(findings()).toEqual({ ...nothing, followed: ['fault work-before-issue 1'] })
      expect(report().runs[0]?.issue?.later).toBe(true)
    })
    onRecord(
      ({ site, findings, report }) => {
        reissued(site)
        expect(findings().followed).toEqual(['doubt draft 1'])
        const text = formatAuditText(report())
        expect(text).not.toContain('Issued by')
        expect(text).toContain('issued later, on 2026-03-09T08:00:00.000Z, by Birk Amdal')
      },
      fanJob,
      'draft'
    )
  })

  it('without the machine it cannot tell', () => {
    onRecord(({ site, findings, report }) => {
      rmSync(layout.issued(site, report().runs[0]?.summary?.machine ?? ''))
      expect(findings().followed).toEqual(['doubt no-machine -'])
      expect(findings().timely).toEqual(['doubt no-machine -'])
      expect(findings().whole).toEqual(['fault machine-altered 1'])
    })
  })
})
