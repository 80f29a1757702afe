import { createRequire } from 'node:module'
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { convert } from './convert.js'
import { formatBeside, formatMeasure } from './format-beside.js'
import { formatQuantity } from './format-quantity.js'
import { parseQuantity } from './parse-quantity.js'
import type { Quantity } from './quantity.js'
import { unitTable } from './unit-table.js'

interface OutsideQuantity {
  to(unit: string): { readonly scalar: number }
}
const outside = createRequire(import.meta.url)('js-quantities') as (value: number, unit: string) => OutsideQuantity

function parsed(text: string): Quantity {
  const read = parseQuantity(text)
  if (!read.ok) throw new Error(read.why)
  return read.value
}

describe('both systems side by side', () => {
  test.each([
    ['4.2 bar', '4.2 bar (60.9 psi)'],
    ['60 psi', '60 psi (4.14 bar)'],
    ['8 bara', '8 bara (116 psia)'],
    ['100 psia', '100 psia (6.89 bara)'],
    ['6 N·m', '6 N·m (4.43 lbf·ft)'],
    ['6 mm', '6 mm (0.236 in)'],
    ['3 m', '3 m (9.84 ft)'],
    ['1800 kg ± 5 %', '1800 kg ± 5 % (3970 lb)'],
    ['48 °C', '48 °C (118 °F)'],
    ['200 °F', '200 °F (93.3 °C)'],
    ['10 gal', '10 gal (37.9 L)'],
    ['50 lbf', '50 lbf (222 N)'],
    ['50 N/mm', '50 N/mm (286 lbf/in)'],
    ['1.2 kg m2', '1.2 kg·m² (28.5 lb·ft²)'],
    ['690 V ac ± 10 %', '690 V ac ± 10 %'],
    ['15 min', '15 min'],
    ['1480 rpm', '1480 rpm']
  ])('%s', (text, expected) => {
    expect(formatBeside(parsed(text))).toBe(expected)
  })

  test('with a decimal comma', () => {
    expect(formatBeside(parsed('4.2 bar ± 2.5 %'), { decimal: 'comma' })).toBe('4,2 bar ± 2,5 % (60,9 psi)')
  })

  test('the figure in brackets, against js-quantities 1.8.0', () => {
    const beside = (text: string): number => Number(/\(([\d.]+) /.exec(formatBeside(parsed(text)))?.[1])
    expect(beside('7.35 bar')).toBeCloseTo(outside(7.35, 'bar').to('psi').scalar, 0)
    expect(beside('12.5 kN')).toBeCloseTo(outside(12.5, 'kN').to('lbf').scalar, -1)
    expect(beside('33 L')).toBeCloseTo(outside(33, 'l').to('gal').scalar, 1)
  })
})

test('reckoned values in the unit people read', () => {
  expect(formatMeasure(5378.01, 'energy')).toBe('5.378 kJ (3970 ft·lbf)')
  expect(formatMeasure(0.25, 'energy')).toBe('0.25 J (0.184 ft·lbf)')
  expect(formatMeasure(633.6, 'time')).toBe('10 min 34 s')
  expect(formatMeasure(0.0239659, 'time')).toBe('23.97 ms')
  expect(formatMeasure(154.9852, 'angular-speed')).toBe('1480 rpm')
  expect(formatMeasure(60e-6, 'charge')).toBe('60 µC')
  expect(formatMeasure(976.5, 'voltage')).toBe('976.5 V')
  expect(formatMeasure(0, 'charge')).toBe('0 C')
  expect(formatMeasure(2617.99, 'number')).toBe('2618')
  expect(formatMeasure(8e5, 'pressure', { reference: 'absolute' })).toBe('8 bara (116 psia)')
})

test('there and back again, every unit, with either decimal sign', () => {
  const unit = fc.constantFrom(...unitTable.map(({ symbol }) => symbol))
  // Seven digits, as in any figure that somebody writes.
  const number = fc.integer({ min: 1, max: 9_999_999 }).map((digits) => digits / 1000)
  const tolerance = fc.integer({ min: 0, max: 400 }).map((tenths) => tenths / 10)
  fc.assert(
    fc.property(unit, number, tolerance, fc.constantFrom('point', 'comma'), (symbol, value, percent, decimal) => {
      const spread = percent === 0 || symbol === '°C' || symbol === '°F' ? '' : ` ± ${percent} %`
      const quantity = parsed(`${value} ${symbol}${spread}`)
      const again = parseQuantity(formatQuantity(quantity, { decimal }), { decimal })
      if (!again.ok) throw new Error(again.why)
      const { written, ...rest } = quantity
      expect(again.value).toMatchObject(rest)
      // Into the SI unit and back.
      const same = unitTable.filter(
        (row) => row.dimension === quantity.dimension && row.reference === quantity.reference
      )
      for (const other of same) {
        const there = convert(value, symbol, other.symbol)
        const back = there.ok ? convert(there.value, other.symbol, symbol) : there
        if (!back.ok) throw new Error(back.why)
        expect(back.value / value).toBeCloseTo(1, 12)
      }
    }),
    { seed: 20261125, numRuns: 150 }
  )
})
