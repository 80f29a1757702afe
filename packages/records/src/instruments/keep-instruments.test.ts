import { readFileSync, writeFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { inFolder, keyOf, plantSite, scriptedClock } from '../../fixtures/plant.js'
import { quantity, tester, writeInstruments } from '../../fixtures/rated-fan.js'
import type { RecordsResult } from '../result.js'
import { layout, type Site } from '../site.js'
import { calibratedAt, instrumentOf, withdrawnAt } from './instrument.js'
import { addInstrument, calibrateInstrument, readInstruments, withdrawInstrument } from './keep-instruments.js'

const faultOf = (result: RecordsResult<unknown>): string => (result.ok ? '' : result.faults[0].id)

function value<Value>(result: RecordsResult<Value>): Value {
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

function withSite(
  body: (
    site: Site,
    ask: { site: Site; root: ReturnType<typeof keyOf>; clock: ReturnType<typeof scriptedClock> }
  ) => void
): void {
  inFolder((folder) => {
    const site = plantSite(folder)
    body(site, { site, root: keyOf('root'), clock: scriptedClock() })
  })
}

const gauge = tester('PG-2', {
  name: 'Pressure gauge',
  measures: 'pressure',
  ratings: [],
  range: { low: quantity('0 bar'), high: quantity('10 bar') },
  accuracy: { ofReading: 0, ofRange: 1.6, plus: null },
  calibrations: []
})

describe('the instruments of a site', () => {
  it('are none as long as the site keeps no list', () => {
    withSite((site) => expect(readInstruments(site)).toEqual({ ok: true, value: null }))
  })

  it('are added, calibrated and withdrawn under the root key, and what was stays on the list', () => {
    withSite((site, ask) => {
      value(addInstrument({ ...ask, instrument: tester('VT-7', { calibrations: [] }) }))
      value(addInstrument({ ...ask, instrument: gauge }))
      const calibrate = (from: string, until: string) =>
        value(calibrateInstrument({ ...ask, id: 'VT-7', calibration: { from, until, certificate: null } }))
      calibrate('2026-01-10', '2027-01-09')
      calibrate('2024-12-20', '2025-12-19')
      value(withdrawInstrument({ ...ask, id: 'VT-7', from: '2026-06-01', why: 'Dropped' }))
      value(withdrawInstrument({ ...ask, id: 'VT-7', from: '2026-07-01', why: 'Later' }))
      const list = value(readInstruments(site))
      expect(list?.serial).toBe(6)
      const one = list === null ? null : instrumentOf(list, 'VT-7')
      if (list === null || one === null) return expect.fail('it is not there')
      expect(instrumentOf(list, 'PG-2')).toEqual(gauge)
      // First and last day included, the gap between the two calibrations not.
      const days = ['2024-12-19', '2024-12-20', '2025-12-19', '2025-12-25', '2026-01-10', '2027-01-09', '2027-01-10']
      expect(days.map((day) => calibratedAt(one, `${day}T23:59:59Z`))).toEqual([
        false,
        true,
        true,
        false,
        true,
        true,
        false
      ])
      expect(withdrawnAt(one, '2026-05-31T23:59:59Z')).toBe(false)
      expect(withdrawnAt(one, '2026-06-01T00:00:00Z')).toBe(true)
      expect(one.withdrawn).toEqual({ from: '2026-06-01', why: 'Dropped' })
    })
  })

  it('are changed by nobody but the holder of the root key, and not into what nobody could read', () => {
    withSite((site, ask) => {
      expect(faultOf(addInstrument({ ...ask, root: keyOf('birk'), instrument: gauge }))).toBe('not-the-root-key')
      expect(readInstruments(site)).toEqual({ ok: true, value: null })
      value(addInstrument({ ...ask, instrument: gauge }))
      const text = readFileSync(layout.instruments(site), 'utf8')
      expect(faultOf(addInstrument({ ...ask, instrument: { ...gauge, id: 'pg-2' } }))).toBe('id-taken')
      expect(faultOf(addInstrument({ ...ask, instrument: { ...gauge, id: '../PG' } }))).toBe('change-refused')
      const falling = { low: quantity('10 bar'), high: quantity('0 bar') }
      expect(faultOf(addInstrument({ ...ask, instrument: { ...gauge, id: 'PG-3', range: falling } }))).toBe(
        'change-refused'
      )
      const mixed = { low: quantity('0 bar'), high: quantity('10 V') }
      expect(faultOf(addInstrument({ ...ask, instrument: { ...gauge, id: 'PG-3', range: mixed } }))).toBe(
        'change-refused'
      )
      for (const accuracy of [
        { ofReading: 0, ofRange: 0, plus: quantity('1 V') },
        { ofReading: 0, ofRange: 1, plus: null }
      ]) {
        const range = accuracy.plus === null ? null : gauge.range
        expect(faultOf(addInstrument({ ...ask, instrument: { ...gauge, id: 'PG-3', range, accuracy } }))).toBe(
          'change-refused'
        )
      }
      const calibrate = (from: string, until: string) =>
        faultOf(calibrateInstrument({ ...ask, id: 'PG-2', calibration: { from, until, certificate: null } }))
      expect(calibrate('2026-02-30', '2027-01-01')).toBe('change-refused')
      expect(calibrate('2026-03-02', '2026-03-01')).toBe('calibration-ends-first')
      expect(faultOf(withdrawInstrument({ ...ask, id: 'PG-9', from: '2026-03-01', why: 'x' }))).toBe(
        'no-such-instrument'
      )
      expect(readFileSync(layout.instruments(site), 'utf8')).toBe(text)
    })
  })

  it('stand in a file of which any changed byte is found', () => {
    withSite((site) => {
      writeInstruments(site, [tester('VT-7'), gauge])
      const file = layout.instruments(site)
      const bytes = readFileSync(file)
      expect(readInstruments(site).ok).toBe(true)
      const unfound: number[] = []
      for (const [position, byte] of bytes.entries()) {
        const changed = Uint8Array.from(bytes)
        changed[position] = byte ^ 1
        writeFileSync(file, changed)
        if (faultOf(readInstruments(site)) !== 'instruments-unsound') unfound.push(position)
      }
      expect(unfound).toEqual([])
      writeFileSync(file, bytes)
      const other = readFileSync(layout.people(site))
      writeFileSync(file, other)
      expect(faultOf(readInstruments(site))).toBe('instruments-unsound')
    })
  })
})
