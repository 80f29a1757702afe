import { createRequire } from 'node:module'
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { convert, dimensionOf } from './convert.js'
import { dimensionFacts } from './dimensions.js'
import type { Dimension } from './quantity.js'
import { unitTable } from './unit-table.js'

// js-quantities 1.8.0 brings no types of its own.
interface OutsideQuantity {
  to(unit: string): { readonly scalar: number }
  toBase(): { readonly numerator: readonly string[]; readonly denominator: readonly string[] }
}
const outside = createRequire(import.meta.url)('js-quantities') as (value: number, unit: string) => OutsideQuantity

const convertible = (value: number, from: string, to: string): number => {
  const converted = convert(value, from, to)
  if (!converted.ok) throw new Error(converted.why)
  return converted.value
}

describe('against js-quantities 1.8.0', () => {
  // Our spelling, theirs, and the SI unit of both. It rounds psi and lbf to six or seven digits.
  test.each([
    ['kV', 'kV', 'V', 'V'],
    ['mA', 'mA', 'A', 'A'],
    ['µF', 'uF', 'F', 'F'],
    ['nF', 'nF', 'F', 'F'],
    ['kΩ', 'kohm', 'Ω', 'ohm'],
    ['MΩ', 'Mohm', 'Ω', 'ohm'],
    ['mH', 'mH', 'H', 'H'],
    ['Ah', 'Ah', 'C', 'C'],
    ['kW', 'kW', 'W', 'W'],
    ['kWh', 'kWh', 'J', 'J'],
    ['MJ', 'MJ', 'J', 'J'],
    ['ft·lbf', 'ft*lbf', 'J', 'J'],
    ['min', 'min', 's', 's'],
    ['h', 'h', 's', 's'],
    ['d', 'day', 's', 's'],
    ['bar', 'bar', 'Pa', 'Pa'],
    ['mbar', 'mbar', 'Pa', 'Pa'],
    ['kPa', 'kPa', 'Pa', 'Pa'],
    ['psi', 'psi', 'Pa', 'Pa'],
    ['L', 'l', 'm³', 'm3'],
    ['mL', 'ml', 'm³', 'm3'],
    ['gal', 'gal', 'm³', 'm3'],
    ['ft³', 'ft3', 'm³', 'm3'],
    ['in³', 'in3', 'm³', 'm3'],
    ['in', 'in', 'm', 'm'],
    ['ft', 'ft', 'm', 'm'],
    ['mm', 'mm', 'm', 'm'],
    ['mm²', 'mm2', 'm²', 'm2'],
    ['in²', 'in2', 'm²', 'm2'],
    ['lb', 'lbs', 'kg', 'kg'],
    ['t', 'tonne', 'kg', 'kg'],
    ['lb·ft²', 'lbs*ft2', 'kg·m²', 'kg*m2'],
    ['rpm', 'rpm', 'rad/s', 'rad/s'],
    ['kN', 'kN', 'N', 'N'],
    ['lbf', 'lbf', 'N', 'N'],
    ['lbf·ft', 'lbf*ft', 'N·m', 'N*m'],
    ['N/mm', 'N/mm', 'N/m', 'N/m'],
    ['lbf/in', 'lbf/in', 'N/m', 'N/m'],
    ['kHz', 'kHz', 'Hz', 'Hz'],
    ['m³/h', 'm3/h', 'm³/s', 'm3/s'],
    ['gal/min', 'gal/min', 'm³/s', 'm3/s'],
    ['km/h', 'kph', 'm/s', 'm/s'],
    ['ft/min', 'ft/min', 'm/s', 'm/s']
  ])('%s', (ours, theirs, ourSi, theirSi) => {
    const expected = outside(1, theirs).to(theirSi).scalar
    expect(Math.abs(convertible(1, ours, ourSi) / expected - 1)).toBeLessThan(2e-6)
  })

  test.each([-40, 0, 48, 100, 232.8])('%d °C and °F', (celsius) => {
    expect(convertible(celsius, '°C', '°F')).toBeCloseTo(outside(celsius, 'tempC').to('tempF').scalar, 6)
    expect(convertible(celsius, '°F', 'K')).toBeCloseTo(outside(celsius, 'tempF').to('tempK').scalar, 6)
  })
})

test('the exponents of every dimension, against js-quantities 1.8.0', () => {
  const bases = ['<meter>', '<kilogram>', '<second>', '<ampere>', '<kelvin>']
  const spelled: Readonly<Record<string, string>> = { Ω: 'ohm', 'kg·m²': 'kg*m2', N·m: 'N*m' }
  for (const { unit, exponents } of Object.values(dimensionFacts)) {
    // A temperature bears the name of its scale there, and a share has no unit.
    if (unit === '' || unit === 'K') continue
    const { numerator, denominator } = outside(1, spelled[unit] ?? unit.replace('³', '3').replace('²', '2')).toBase()
    const count = (names: readonly string[], base: string) => names.filter((name) => name === base).length
    const expected = bases.map((base) => count(numerator, base) - count(denominator, base))
    expect([unit, ...exponents]).toEqual([unit, ...expected])
  }
})

describe('exact factors', () => {
  // NIST Special Publication 811 (2008), appendix B.8; these are exact by definition.
  test.each([
    [1, 'in', 'mm', 25.4],
    [1, 'ft', 'm', 0.3048],
    [1, 'lb', 'kg', 0.45359237],
    [1, 'lbf', 'N', 4.4482216152605],
    [1, 'gal', 'L', 3.785411784],
    [1, 'gal', 'in³', 231],
    [100, '°C', '°F', 212],
    [32, '°F', '°C', 0],
    [0.69, 'kV', 'V', 690],
    [0.1, 'bar', 'mbar', 100],
    [4.7, 'mF', 'µF', 4700]
  ])('%d %s in %s', (value, from, to, expected) => {
    expect(convertible(value, from, to)).toBe(expected)
  })
})

describe('what does not convert', () => {
  test.each([
    [1, 'V', 'A', '`V` is a voltage and `A` is a current.'],
    [1, 'N·m', 'J', 'although both are built from the same base units'],
    [1, 'rpm', 'Hz', 'although both are built from the same base units'],
    [1, 'bara', 'bar', 'they differ by the ambient pressure'],
    [1, 'volt', 'V', '`volt` is not a unit'],
    [1, 'V', 'volt', '`volt` is not a unit'],
    [Number.NaN, 'V', 'kV', 'no number to convert']
  ])('%d %s in %s', (value, from, to, why) => {
    const converted = convert(value, from, to)
    expect(converted.ok ? 'converted' : converted.why).toContain(why)
  })
})

test('there and back again, for every pair of units of one dimension', () => {
  const symbols = unitTable.map(({ symbol }) => symbol)
  const pair = fc.tuple(fc.constantFrom(...symbols), fc.constantFrom(...symbols))
  fc.assert(
    fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), pair, (value, [from, to]) => {
      const there = convert(value, from, to)
      fc.pre(there.ok)
      const back = there.ok ? convert(there.value, to, from) : there
      expect(back.ok && Math.abs(back.value - value)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(value)))
    }),
    { seed: 20261125, numRuns: 300 }
  )
})

test('every dimension has units, and its SI unit counts as one', () => {
  for (const [dimension, { unit }] of Object.entries(dimensionFacts) as [Dimension, { unit: string }][]) {
    expect(unitTable.some((row) => row.dimension === dimension)).toBe(true)
    if (unit !== '') expect(dimensionOf(unit)).toBe(dimension)
  }
  expect(dimensionOf('furlong')).toBeUndefined()
})
