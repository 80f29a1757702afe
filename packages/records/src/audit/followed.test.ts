import { rmSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { forge } from '../../fixtures/forge.js'
import { keyFor, nothing, onRecord } from '../../fixtures/on-record.js'
import { fanJob, type Step } from '../../fixtures/plant.js'
import type { Entry } from '../entry.js'
import { layout } from '../site.js'

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
    onRecord(({ findings }) => expect(findings()).toEqual(nothing), stop({}))
    onRecord(
      ({ findings }) => expect(findings().followed).toEqual(['fault stopped-open 6']),
      stop({ left: 'Cover off, guarded by Liv' })
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
