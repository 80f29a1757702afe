import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { formatDuration, formatQuantity } from './format-quantity.js'
import { parseQuantity } from './parse-quantity.js'
import type { Quantity } from './quantity.js'
import { unitTable } from './unit-table.js'

function read(text: string): Quantity {
  const parsed = parseQuantity(text)
  if (!parsed.ok) throw new Error(`${text}: ${parsed.why}`)
  return parsed.value
}

test.each([
  ['690 V ac +- 10%', {}, '690 V ac ± 10 %'],
  ['690 V ac ± 10 %', { tolerance: false }, '690 V ac'],
  ['0.69 kV', { unit: 'V' }, '690 V'],
  ['1.2 kg m2', {}, '1.2 kg·m²'],
  ['4.2 bar', { unit: 'kPa' }, '420 kPa'],
  ['4.2 bar', { unit: 'bara' }, '4.2 bar'],
  ['4.2 bar', { unit: 'V' }, '4.2 bar'],
  ['0.0000004 F', {}, '0.0000004 F'],
  ['48 °C', { unit: '°F' }, '118.4 °F'],
  ['9.4 mF ± 7 %', {}, '9.4 mF ± 7 %']
])('%s with %j', (text, options, expected) => {
  expect(formatQuantity(read(text), options)).toBe(expected)
})

test('what is formatted reads back as the same quantity', () => {
  const symbol = fc.constantFrom(...unitTable.filter(({ zero }) => zero === undefined).map((row) => row.symbol))
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 1e9 }),
      symbol,
      fc.integer({ min: 0, max: 1000 }),
      (thousandths, unit, tenths) => {
        const quantity = read(`${(thousandths / 1000).toFixed(3)} ${unit} ± ${tenths / 10} %`)
        expect({ ...read(formatQuantity(quantity)), written: '' }).toEqual({ ...quantity, written: '' })
      }
    ),
    { seed: 20261125 }
  )
})

test.each([
  [0, '0 s'],
  [5, '5 s'],
  [59.2, '1 min'],
  [900, '15 min'],
  [633.6, '10 min 34 s'],
  [60.000000000000014, '1 min'],
  [3725, '1 h 2 min 5 s'],
  [7200, '2 h']
])('%d seconds', (seconds, expected) => {
  expect(formatDuration(seconds)).toBe(expected)
})
