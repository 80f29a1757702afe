import { describe, expect, it } from 'vitest'
import { findingsOf, generalOf, inAuditedPlant } from '../../fixtures/audited-plant.js'
import { fanJob, keyOf, person, type Step } from '../../fixtures/plant.js'
import { tester } from '../../fixtures/rated-fan.js'
import { addInstrument } from '../instruments/keep-instruments.js'
import { registerSheet } from '../sheets/register-sheet.js'

const day = 86_400

describe('sheets', () => {
  it('that never came back are told, with how long they are out', async () => {
    await inAuditedPlant(async ({ site, clock, put, audited }) => {
      put('fan')
      const printed = registerSheet(site, {
        machine: 'a'.repeat(64),
        procedure: 'F12-BEARING',
        revision: 2,
        generations: {},
        languages: ['en'],
        printedAt: clock.now().at,
        by: 'odd'
      })
      if (!printed.ok) return expect.fail(JSON.stringify(printed.faults))
      clock.pass(3 * day)
      const report = await audited()
      expect(report.sheets).toMatchObject([{ serial: printed.value.serial, days: 3, state: 'out', by: 'odd' }])
      expect(generalOf(report, 'due')).toEqual(['doubt sheet-out'])
    })
  })
})

describe('calibration', () => {
  it('that has ended or ends within 30 days is told', async () => {
    await inAuditedPlant(async ({ site, clock, put, audited }) => {
      put('fan')
      const calibrated = { from: '2026-01-01', until: '2026-06-30', certificate: null }
      const added = addInstrument({
        site,
        root: keyOf('root'),
        clock,
        instrument: tester('VT-7', { calibrations: [calibrated] })
      })
      if (!added.ok) return expect.fail(JSON.stringify(added.faults))
      expect(generalOf(await audited(), 'due')).toEqual([])
      clock.pass(91 * day)
      expect(generalOf(await audited(), 'due')).toEqual(['doubt calibration-ends'])
      clock.pass(30 * day)
      expect(generalOf(await audited(), 'due')).toEqual(['doubt calibration-ended'])
    })
  })
})

describe('a record that is dated later than its audit', () => {
  it('is told, and one that is a few minutes ahead is not', async () => {
    await inAuditedPlant(async ({ clock, put, audited }) => {
      put('fan')
      clock.setWall(-240)
      expect(findingsOf(await audited(), 'fan', 'timely')).toEqual([])
      clock.setWall(-240)
      expect(findingsOf(await audited(), 'fan', 'timely')).toEqual(['doubt dated-ahead'])
    })
  })
})

describe('locks and shifts', () => {
  it('of an open run are held against the hour of the audit', async () => {
    await inAuditedPlant(async ({ clock, put, audited }) => {
      put('open', fanJob.slice(0, 4))
      clock.pass(11 * 3600)
      expect(findingsOf(await audited(), 'open', 'due')).toEqual(['doubt run-open'])
      clock.pass(3600)
      const report = await audited()
      // The roster of the plant gives no length of shift, so the usual one is no ground for a fault.
      expect(findingsOf(report, 'open', 'due').toSorted()).toEqual(['doubt lock-past-shift', 'doubt run-open'])
      expect(report.hanging[0]?.pastShift).toBe(true)
      expect(findingsOf(report, 'open', 'timely')).toEqual([])
    })
  })

  it('of a run that is done are told where one came off too late, and not where it was handed over', async () => {
    const late = (seconds: number): readonly Step[] =>
      fanJob.map((step) => (step.event.kind === 'done' && step.event.state === 'change' ? { ...step, seconds } : step))
    await inAuditedPlant(async ({ put, audited }) => {
      put('late', late(13 * 3600))
      put('in-time', late(9 * 3600))
      const report = await audited()
      expect(findingsOf(report, 'late', 'timely')).toEqual(['doubt lock-past-shift', 'doubt lock-past-shift'])
      expect(findingsOf(report, 'in-time', 'timely')).toEqual([])
      const found = report.runs.find(({ run }) => run === 'late')?.verdicts[3].findings[0]
      expect(found?.what).toContain(`Lock 17 of Odd Teig (${person('odd')}) on Q1 was on for 13.`)
    })
  })
})
