import { readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { findingsOf, generalOf, inAuditedPlant } from '../../fixtures/audited-plant.js'
import { signedSeq } from '../../fixtures/on-record.js'
import { fanJob, keyOf, scriptedClock } from '../../fixtures/plant.js'
import { publicBytesOf, thumbprint } from '../public-key.js'
import { formatAuditText } from '../report/format-audit-text.js'
import { layout } from '../site.js'
import { folderStore } from '../store/folder-store.js'
import { allGood, audit } from './audit.js'
import { auditRun } from './audit-run.js'
import { readGrounds } from './evidence.js'

describe('an audit of a run that went well', () => {
  it('finds nothing, and says what it looked at and whose root key it went by', async () => {
    await inAuditedPlant(async ({ put, audited }) => {
      put('fan')
      const report = await audited()
      expect(report.runs.flatMap(({ verdicts }) => verdicts.flatMap(({ findings }) => findings))).toEqual([])
      expect(report.general.flatMap(({ findings }) => findings)).toEqual([])
      expect(allGood(report)).toBe(true)
      expect(report.root).toEqual({
        thumbprint: thumbprint(publicBytesOf(keyOf('root'))),
        from: 'site folder',
        handedOver: []
      })
      expect((await audited({ trusted: thumbprint(publicBytesOf(keyOf('root'))) })).root?.from).toBe('auditor')
      expect(report.runs[0]?.verdicts.map(({ checked }) => checked.length > 0)).toEqual(Array(5).fill(true))
      expect(report.runs[0]?.entries[signedSeq - 1]?.signature).toMatchObject({ name: 'Runa Solvik', good: true })
    })
  })

  it('says the same as one that reads the folder itself, run by run', async () => {
    await inAuditedPlant(async ({ site, put, audited }) => {
      put('fan')
      put('open', fanJob.slice(0, 4))
      const grounds = readGrounds(site)
      const same = ['fan', 'open'].map((run) => {
        const file = layout.journal(site, run)
        return auditRun(grounds, file, readFileSync(file))
      })
      const told = JSON.stringify((await audited()).runs)
      expect(JSON.parse(told)).toEqual(JSON.parse(JSON.stringify(same).replaceAll(`${site.folder}/`, '')))
    })
  })

  it('goes the same for a copy of the journal that lies elsewhere', async () => {
    await inAuditedPlant(async ({ site, put, audited }) => {
      put('fan')
      const bytes = readFileSync(layout.journal(site, 'fan'))
      rmSync(layout.journal(site, 'fan'))
      const report = await audited({ journals: [{ file: join('elsewhere', 'fan.jsonl'), bytes }] })
      expect(report.scope).toBe('run')
      expect(allGood(report)).toBe(true)
    })
  })

  it('is not well because there is no run', async () => {
    await inAuditedPlant(async ({ audited }) => expect(allGood(await audited())).toBe(false))
  })

  it('says cannot tell of a run that does not exist', async () => {
    await inAuditedPlant(async ({ put, audited }) => {
      put('fan')
      const [run] = (await audited({ run: 'nothing' })).runs
      expect(run?.verdicts.map(({ answer }) => answer)).not.toContain('good')
    })
  })
})

describe('the golden site of format version 1', () => {
  it('keeps its verdicts when it is read through a store', async () => {
    const site = { folder: join(import.meta.dirname, '..', '..', 'fixtures', 'golden-v1', 'site') }
    const report = await audit({ store: folderStore(site), clock: scriptedClock('2026-03-03T08:00:00.000Z') })
    expect(report.runs.map(({ run, verdicts }) => [run, ...verdicts.map(({ answer }) => answer)])).toEqual([
      ['example', 'good', 'good', 'good', 'good', 'good'],
      ['golden', 'good', 'good', 'good', 'good', 'good']
    ])
    expect(report.runs.flatMap(({ verdicts }) => verdicts.flatMap(({ findings }) => findings))).toEqual([])
    expect(report.general.flatMap(({ findings }) => findings)).toEqual([])
    expect(report.notAnswered.join(' ')).toContain('there is no site log here')
  })
})

describe('what hangs now', () => {
  it('is every lock that is on, also of a run that was stopped, whose and since when, the longest first', async () => {
    await inAuditedPlant(async ({ put, clock, audited }) => {
      put('done')
      put('stopped', [
        ...fanJob
          .slice(0, 4)
          .map((step) =>
            step.event.kind === 'lock-hung'
              ? { ...step, event: { ...step.event, lock: '21' as typeof step.event.lock } }
              : step
          ),
        { seconds: 30, by: 'odd', event: { kind: 'stopped', reason: 'No bearing' }, signed: true }
      ])
      clock.pass(3 * 3600)
      put('open', fanJob.slice(0, 4))
      put('practice', fanJob.slice(0, 4), 'rehearsal')
      clock.pass(3600)
      const report = await audited()
      expect(
        report.hanging.map(({ run, lock, point, by, hours, status }) => [run, lock, point, by, hours, status])
      ).toEqual([
        ['stopped', '21', 'Q1', 'Odd Teig (odd)', 4.1, 'stopped'],
        ['open', '17', 'Q1', 'Odd Teig (odd)', 1, 'running']
      ])
      expect(report.hanging[0]?.device).toContain(', ')
      expect(report.open.map(({ run }) => run)).toEqual(['open'])
      expect(findingsOf(report, 'stopped', 'due')).toEqual(['fault lock-left'])
      expect(findingsOf(report, 'open', 'due')).toEqual(['doubt run-open'])
      expect(findingsOf(report, 'done', 'due')).toEqual([])
      expect(findingsOf(report, 'practice', 'due')).toEqual([])
    })
  })
})

describe('a choice of runs', () => {
  it('tells what it left out, and leaves out none of which nothing can be read', async () => {
    await inAuditedPlant(async ({ site, put, clock, audited }) => {
      put('early', fanJob.slice(0, 2))
      clock.pass(20 * 86_400)
      put('late')
      writeFileSync(layout.journal(site, 'blank'), '')
      const since = await audited({ since: '2026-03-20' })
      expect(since.runs.map(({ run }) => run)).toEqual(['blank', 'late'])
      expect(since.asked).toMatchObject({ since: '2026-03-20', leftOut: [{ why: 'ended before 2026-03-20', runs: 1 }] })
      const person = await audited({ person: 'runa' })
      expect(person.runs.map(({ run }) => run)).toEqual(['blank', 'late'])
      const other = await audited({ equipment: 'F-99' })
      expect(other.runs.map(({ run }) => run)).toEqual(['blank'])
      expect(other.asked.leftOut).toEqual([{ why: 'are of other equipment than F-99', runs: 2 }])
    })
  })
})

describe('a choice that leaves runs out', () => {
  it('hides no lock of theirs, and does not say that nothing is on record', async () => {
    await inAuditedPlant(async ({ put, audited }) => {
      put('open', fanJob.slice(0, 4))
      for (const choice of [{ since: '2027-01-01' }, { equipment: 'f-12' }, { person: 'Odd' }]) {
        const report = await audited(choice)
        expect(report.runs).toEqual([])
        expect(report.hanging).toMatchObject([{ run: 'open', lock: '17', point: 'Q1' }])
        const told = formatAuditText(report)
        expect(told).toMatch(/What hangs now: 1 lock\n.*\n +17 /)
        expect(told).not.toContain('No run is on record here.')
        expect(told).toContain('1 run left out. Look at how the equipment and the person are written.')
      }
    })
  })
})

describe('qualifications', () => {
  it('of people at work that run out within 30 days are told', async () => {
    await inAuditedPlant(async ({ put, clock, audited }) => {
      put('fan')
      expect(generalOf(await audited(), 'due')).toEqual([])
      clock.pass(275 * 86_400)
      expect(generalOf(await audited(), 'due')).toEqual(['doubt qualification-ends'])
      clock.pass(30 * 86_400)
      expect(generalOf(await audited(), 'due')).toEqual(['doubt qualification-ended'])
    })
  })
})
