import * as fc from 'fast-check'
import { assert, property } from 'fast-check'
import { describe, expect, test } from 'vitest'
import { parseQuantity } from './parse-quantity.js'
import type { Quantity } from './quantity.js'
import { unitTable } from './unit-table.js'

const seed = 20261125

function read(text: string): Quantity {
  const parsed = parseQuantity(text)
  if (!parsed.ok) throw new Error(parsed.why)
  return parsed.value
}

function refusal(text: string): string {
  const parsed = parseQuantity(text)
  if (parsed.ok) throw new Error(`${text} was accepted`)
  return parsed.why
}

describe('what is read', () => {
  test('a voltage with current and tolerance, exact at its ends', () => {
    expect(read('690 V ac ± 10 %')).toEqual({
      written: '690 V ac ± 10 %',
      value: 690,
      unit: 'V',
      dimension: 'voltage',
      current: 'ac',
      tolerance: 0.1,
      si: 690,
      interval: { low: 621, high: 759 }
    })
  })

  test.each(['18 kΩ ± 5 %', '18 k\u2126 ±5%', '18 kohm +- 5 %', '18kΩ +/-5 %'])('%s', (text) => {
    expect(read(text)).toMatchObject({ unit: 'kΩ', si: 18000, tolerance: 0.05, interval: { low: 17100, high: 18900 } })
  })

  test.each([
    ['9.4 mF', 'capacitance', 0.0094],
    ['2 \u00b5F', 'capacitance', 2e-6],
    ['2 \u03bcF', 'capacitance', 2e-6],
    ['2 uF', 'capacitance', 2e-6],
    ['1.2 kg m2', 'inertia', 1.2],
    ['1.2 kg·m²', 'inertia', 1.2],
    ['1.2 kg m^2', 'inertia', 1.2],
    ['4 N·m', 'torque', 4],
    ['4 N m', 'torque', 4],
    ['4 Nm', 'torque', 4],
    ['4 J', 'energy', 4],
    ['1480 rpm', 'angular-speed', (1480 * Math.PI) / 30],
    ['15 min', 'time', 900],
    ['2 h', 'time', 7200],
    ['250 ms', 'time', 0.25],
    ['24 L', 'volume', 0.024],
    ['0.5 m3', 'volume', 0.5],
    ['35 mm2', 'area', 35e-6],
    ['50 N/mm', 'force-per-length', 50000],
    ['10 Ah', 'charge', 36000],
    ['60 °C', 'temperature', 333.15],
    ['60 degC', 'temperature', 333.15],
    ['60 ºC', 'temperature', 333.15],
    ['-40 °F', 'temperature', 233.15],
    ['293.15 K', 'temperature', 293.15],
    ['75 %', 'number', 0.75],
    ['50 Hz', 'frequency', 50],
    ['-0.4 bar', 'pressure', -40000]
  ])('%s is %s', (text, dimension, si) => {
    const quantity = read(text)
    expect(quantity.dimension).toBe(dimension)
    expect(quantity.si).toBeCloseTo(si, 12)
  })

  test('torque is not energy, and foot-pounds are told apart by their order', () => {
    expect(read('10 lbf ft').dimension).toBe('torque')
    expect(read('10 ft lbf').dimension).toBe('energy')
  })

  test.each([
    ['4.2 bar', 'gauge', 420000],
    ['4.2 barg', 'gauge', 420000],
    ['4.2 bar(g)', 'gauge', 420000],
    ['4.2 bara', 'absolute', 420000],
    ['10 psia', 'absolute', 68947.57293168361],
    ['10 psig', 'gauge', 68947.57293168361],
    ['10 psi', 'gauge', 68947.57293168361]
  ])('%s is %s', (text, reference, si) => {
    expect(read(text)).toMatchObject({ dimension: 'pressure', reference, si })
  })

  test('every prefix and spelling of the table is read as its own unit', () => {
    for (const row of unitTable) {
      for (const prefix of ['', ...(row.prefixes ?? '').split(' ').filter((name) => name !== '')]) {
        for (const spelling of [row.symbol, ...(row.spell ?? [])]) {
          expect(read(`1 ${prefix}${spelling}`)).toMatchObject({ unit: prefix + row.symbol, dimension: row.dimension })
        }
      }
    }
  })
})

describe('what is refused, and the sentence that says why', () => {
  test.each([
    ['', 'A quantity is missing'],
    ['690', '`690` has no unit'],
    ['volts', 'does not begin with a number'],
    ['NaN V', 'does not begin with a number'],
    ['Infinity V', 'does not begin with a number'],
    ['4,2 bar', 'use a decimal point, and no separator between thousands (`4.2`)'],
    ['1,480 rpm', '(`1480` or `1.480`, whichever is meant)'],
    ['5 V ± 2,5 %', 'use a decimal point'],
    ['.5 V', 'write a zero before it'],
    ['5. V', 'has a point with no digit after it'],
    ['1e3 V', 'has an exponent'],
    ['1 480 rpm', 'more than one number'],
    ['3 x 400 V', 'more than one number'],
    ['3/4 in', 'more than one number'],
    ['10-20 bar', 'more than one number'],
    ['10 to 20 bar', 'more than one number'],
    ['1 h 30 min', 'is not a unit'],
    ['400 v', 'did you mean `V`?'],
    ['4 Bar', 'did you mean `bar`?'],
    ['5 Nmm', 'did you mean'],
    ['400 VAC', 'write `V ac`'],
    ['400 V ac dc', 'a second `ac` or `dc`'],
    ['5 bar ac', '`bar` is a pressure'],
    ['690 V ± 10', 'is not a percentage'],
    ['690 V ± 10 V', 'is not a percentage'],
    ['690 V ± 10 % ac', 'is not a percentage'],
    ['690 V ± 5 % ± 10 %', 'more than one tolerance'],
    ['690 V ± 101 %', 'may be 100 % at most'],
    ['60 °C ± 10 %', 'write the highest temperature'],
    ['-48 V dc', 'is negative'],
    ['-1 bara', 'is negative'],
    ['-2 bar', 'below a perfect vacuum'],
    ['-300 °C', 'below absolute zero'],
    [`${'9'.repeat(31)} V`, 'more digits than'],
    [`${'9'.repeat(300)} V`, 'too long']
  ])('%s', (text, why) => {
    expect(refusal(text)).toContain(why)
  })

  test('every refusal is one plain sentence', () => {
    for (const text of ['', '690', '4,2 bar', '400 v', '1e3 V', 'x', '5 V ± x', '7 qqqqqq']) {
      expect(refusal(text)).toMatch(/^[A-Z`].*[.?]$/)
    }
  })

  test('no input of any sort throws or stalls', () => {
    assert(
      property(
        fc.oneof(
          fc.string({ unit: 'binary' }),
          fc.string().map((tail) => `5 ${tail}`)
        ),
        (text) => {
          const parsed = parseQuantity(text)
          return parsed.ok ? Number.isFinite(parsed.value.si) : parsed.why.length > 0
        }
      ),
      { seed, numRuns: 500 }
    )
    const before = performance.now()
    parseQuantity(`5 ${' ·'.repeat(500_000)}`)
    parseQuantity('9'.repeat(1_000_000))
    expect(performance.now() - before).toBeLessThan(1000)
  })
})

test('the interval holds the value and is as wide as the tolerance says', () => {
  const cents = fc.integer({ min: 1, max: 10_000_000 })
  const units = fc.constantFrom('V', 'kΩ', 'mF', 'bar', 'rpm', 'kg m2', 'psi', 'L', 'A')
  assert(
    property(cents, units, fc.integer({ min: 0, max: 100 }), (hundredths, unit, percent) => {
      const { si, interval, tolerance } = read(`${(hundredths / 100).toFixed(2)} ${unit} ± ${percent} %`)
      expect(tolerance).toBe(percent / 100)
      expect(interval.low).toBeLessThanOrEqual(si)
      expect(interval.high).toBeGreaterThanOrEqual(si)
      expect(interval.high / si).toBeCloseTo(1 + percent / 100, 12)
      expect(interval.high + interval.low).toBeCloseTo(2 * si, 6)
    }),
    { seed }
  )
})
