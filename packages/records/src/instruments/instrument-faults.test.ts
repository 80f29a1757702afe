import type { Machine, State } from '@lockwright/machine'
import { describe, expect, it } from 'vitest'
import { quantity, ratedFan, tester } from '../../fixtures/rated-fan.js'
import type { Instrument, InstrumentRating, Instruments } from './instrument.js'
import { fittingInstruments, instrumentFaults } from './instrument-faults.js'
import { instrumentNeed, provenAgainNeed } from './instrument-need.js'
import { mayReachLimit, readingBound } from './reading-bound.js'

const day = '2026-03-02T08:00:00Z'
const listOf = (...instruments: readonly Instrument[]): Instruments => ({
  site: 'Sandholm waterworks',
  serial: 1,
  signedAt: day,
  instruments
})
const proving = ratedFan.states.find(({ id }) => id === 'prove-dead') as State

/** What speaks against one instrument for one reading of the fan job. */
function faultsOf(instrument: Instrument, input = 'L1-L2', value = 0, at = day): readonly string[] {
  const need = instrumentNeed(ratedFan, proving, input)
  const reading = { instrument: instrument.id, value, unit: 'V', at }
  return instrumentFaults(listOf(instrument), need, reading).map(({ id }) => id.replace('instrument-', ''))
}

describe('what a step asks of its instrument', () => {
  it('is the worst case of the circuit, of category III where nothing else is declared', () => {
    expect(instrumentNeed(ratedFan, proving, 'L1-L2')).toMatchObject({
      named: true,
      measures: ['voltage'],
      circuits: [{ source: 'mains', category: 'III', current: 'ac' }]
    })
    const [mains] = instrumentNeed(ratedFan, proving, 'L1-L2')?.circuits ?? []
    expect(mains?.volts).toBeCloseTo(759, 6)
    expect(instrumentNeed(ratedFan, proving, 'DC')?.circuits).toMatchObject([{ category: 'III', current: 'dc' }])
    expect(instrumentNeed(ratedFan, proving, 'before')).toBeNull()
    expect(provenAgainNeed(ratedFan, 'mains' as never)).toEqual(instrumentNeed(ratedFan, proving, 'L1-L2'))
  })

  it('of a gauge that is built into the machine nothing is asked', () => {
    const flow = ratedFan.states.find(({ id }) => id === 'flow') as State
    const need = instrumentNeed(ratedFan, flow, 'reading')
    expect(need).toMatchObject({ named: false, circuits: [], measures: null })
    expect(instrumentFaults(listOf(), need, { instrument: undefined, value: 900, unit: 'm3/h', at: day })).toEqual([])
  })

  it('of water the range has to hold both what can be there and the safe level', () => {
    const water = {
      ...ratedFan.sources[0],
      id: 'water',
      kind: 'liquid',
      quantities: waterQuantities,
      electricalWork: false
    }
    const input = {
      kind: 'reading',
      id: 'p',
      label: 'Pressure',
      unit: 'bar',
      limits: { min: null, max: null, below: 0.1 },
      source: 'water'
    }
    const state = { ...proving, with: ['gauge'], inputs: [input] } as unknown as State
    const item = { id: 'gauge', kind: 'tool', measures: 'pressure', needsCalibration: true }
    const machine = { ...ratedFan, sources: [water], items: [item] } as unknown as Machine
    const need = instrumentNeed(machine, state, 'p')
    const told = (from: string, to: string, calibrations = tester('x').calibrations) => {
      const range = { low: quantity(from), high: quantity(to) }
      const one = tester('PG-2', { measures: 'pressure', ratings: [], range, calibrations })
      const reading = { instrument: 'PG-2', value: 0.02, unit: 'bar', at: day }
      return instrumentFaults(listOf(one), need, reading).map(({ id }) => id)
    }
    expect(told('0 bar', '10 bar')).toEqual([])
    expect(told('0 psi', '100 psi')).toEqual([])
    expect(told('0 bar', '4 bar')).toEqual(['instrument-out-of-range'])
    expect(told('1 bar', '10 bar')).toEqual(['instrument-out-of-range'])
    // Above ambient and absolute are not compared: the ambient pressure is not known.
    expect(told('0 bara', '10 bara')).toContain('instrument-wrong-kind')
    // The procedure asks for calibration, so none at all does not do.
    expect(told('0 bar', '10 bar', [])).toEqual(['instrument-not-calibrated'])
  })
})

const waterQuantities = { pressure: quantity('4.2 bar ± 10 %'), 'safe-below': quantity('0.1 bar') }

describe('what speaks against an instrument', () => {
  const rated = (...ratings: readonly (readonly [InstrumentRating['category'], string])[]): Instrument =>
    tester('VT', { ratings: ratings.map(([category, upTo]) => ({ category, upTo: quantity(upTo) })) })

  it('a rating that lacks the voltage or the category: CAT III 1000 V and CAT IV 600 V are not ordered', () => {
    // IEC 61010-2-030; the measurement categories and their order as `packages/energy/src/ratings` has them.
    expect(faultsOf(rated(['III', '1000 V'], ['IV', '600 V']))).toEqual([])
    expect(faultsOf(rated(['IV', '600 V']))).toEqual(['under-rated'])
    expect(faultsOf(rated(['II', '1000 V']))).toEqual(['under-rated'])
    expect(faultsOf(rated(['IV', '1000 V']))).toEqual([])
    expect(faultsOf(rated(['III', '758 V']))).toEqual(['under-rated'])
    expect(faultsOf(rated(['III', '760 V']))).toEqual([])
    expect(faultsOf(rated())).toEqual(['under-rated'])
  })

  it('a rating for the other current', () => {
    expect(faultsOf(rated(['III', '1000 V dc']))).toEqual(['under-rated'])
    expect(faultsOf(rated(['III', '1000 V dc']), 'DC')).toEqual([])
    expect(faultsOf(rated(['III', '800 V ac'], ['III', '1000 V dc']))).toEqual([])
  })

  it('a day out of calibration, or after it was withdrawn; the days before stay good', () => {
    const one = tester('VT', { withdrawn: { from: '2026-05-01', why: 'Reads 8 V low' } })
    expect(faultsOf(one, 'DC', 0, '2026-04-30T23:59:59Z')).toEqual([])
    expect(faultsOf(one, 'DC', 0, '2026-05-01T00:00:00Z')).toEqual(['withdrawn'])
    expect(faultsOf(one, 'DC', 0, '2026-01-09T23:59:59Z')).toEqual(['not-calibrated'])
    expect(faultsOf(one, 'DC', 0, '2027-01-10T00:00:00Z')).toEqual(['withdrawn', 'not-calibrated'])
    // None on record: nobody knows by how much it is wrong.
    expect(faultsOf(tester('VT', { calibrations: [] }))).toEqual(['not-calibrated'])
  })

  it('an instrument that measures something else, or that cannot show so much', () => {
    expect(faultsOf(tester('PG', { measures: 'pressure' }))).toEqual(['wrong-kind'])
    const low = { low: quantity('0 V'), high: quantity('100 V') }
    expect(faultsOf(tester('VT', { range: low }), 'DC', 120)).toEqual(['out-of-range'])
    expect(faultsOf(tester('VT', { range: low }), 'DC', 20)).toEqual([])
    const bars = { low: quantity('0 bar'), high: quantity('10 bar') }
    expect(faultsOf(tester('VT', { range: bars }))).toEqual(['wrong-kind'])
  })

  it('that nobody named it, or that nobody here knows it', () => {
    const need = instrumentNeed(ratedFan, proving, 'DC')
    const reading = { value: 0, unit: 'V', at: day }
    const told = (instrument: string | undefined) =>
      instrumentFaults(listOf(tester('VT')), need, { ...reading, instrument }).map(({ id }) => id)
    expect(told(undefined)).toEqual(['instrument-not-named'])
    expect(told('VT-9')).toEqual(['instrument-unknown'])
    expect(told('vt')).toEqual(['instrument-unknown'])
    expect(told('VT')).toEqual([])
  })

  it('leaves those to choose from that fit', () => {
    const list = listOf(
      tester('VT-1'),
      rated(['II', '300 V']),
      tester('VT-3', { calibrations: [{ from: '2020-01-01', until: '2020-12-31', certificate: null }] })
    )
    const need = instrumentNeed(ratedFan, proving, 'DC')
    expect(fittingInstruments(list, need, { unit: 'V', at: day }).map(({ id }) => id)).toEqual(['VT-1'])
  })
})

describe('how far a reading may be wrong', () => {
  it('is the sum of the parts, in the unit of the reading', () => {
    const accuracy = { ofReading: 2, ofRange: 1, plus: quantity('500 mV') }
    const one = tester('VT', { accuracy, range: { low: quantity('0 V'), high: quantity('1 kV') } })
    // 2 % of 40 V, 1 % of 1000 V, 0.5 V.
    expect(readingBound(one, -40, 'V')).toBeCloseTo(0.8 + 10 + 0.5, 9)
    expect(readingBound(tester('VT'), 40, 'V')).toBeNull()
    expect(readingBound(one, 4, 'bar')).toBeNull()
  })

  it('keeps the size of a degree and not its zero', () => {
    const accuracy = { ofReading: 0, ofRange: 0, plus: quantity('2 °C') }
    expect(readingBound(tester('T', { accuracy }), 40, '°F')).toBeCloseTo(3.6, 9)
  })

  it('makes a reading near the limit no proof, whichever way the leads were', () => {
    const one = tester('VT', { accuracy: { ofReading: 0, ofRange: 0, plus: quantity('2 V') } })
    const reach = (value: number, below: number | null = 50) =>
      mayReachLimit(one, { min: null, max: null, below }, value, 'V')
    expect([47.9, 48, 49.9, -48, -47.9].map((value) => reach(value))).toEqual([false, true, true, true, false])
    // At the limit or above it is out of limits anyway, which is for `advance` to say; a limit of 0 asks for standstill.
    expect([reach(50), reach(0, 0), reach(10, null)]).toEqual([false, false, false])
  })
})
