import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type EnergyKind, type EnergyParameters, safeBelow } from './energy-parameters.js'
import { parseQuantity } from './parse-quantity.js'
import { relieveTime } from './relieve-time.js'
import { storedEnergy } from './stored-energy.js'

function source(kind: EnergyKind, texts: Readonly<Record<string, string>> = {}): EnergyParameters {
  const entries = Object.entries(texts).map(([name, text]) => {
    const parsed = parseQuantity(text)
    if (!parsed.ok) throw new Error(parsed.why)
    return [name, parsed.value] as const
  })
  return { kind, quantities: Object.fromEntries(entries) }
}

const link = { capacitance: '9.4 mF ± 20 %', voltage: '930 V dc ± 5 %', bleed: '18 kΩ ± 5 %' }

describe('the worst case', () => {
  test('every parameter at its slow end', () => {
    const time = relieveTime(source('capacitor', link))
    expect(time).toMatchObject({ kind: 'computed', formula: 't = R·C·ln(V0/V)' })
    expect(time.kind === 'computed' && time.seconds).toBeCloseTo(18900 * 0.01128 * Math.log(976.5 / 50), 6)
    expect(time.kind === 'computed' && time.inputs).toEqual([
      { name: 'bleed', value: 18900, unit: 'Ω' },
      { name: 'capacitance', value: 0.01128, unit: 'F' },
      { name: 'voltage', value: 976.5, unit: 'V' },
      { name: 'safe-below', value: 50, unit: 'V' }
    ])
  })

  test('a wider tolerance never shortens the wait, and after it the voltage is safe anywhere within it', () => {
    const percent = fc.integer({ min: 0, max: 40 })
    fc.assert(
      fc.property(percent, percent, percent, fc.double({ min: 0, max: 1, noNaN: true }), (c, r, v, share) => {
        const parameters = source('capacitor', {
          capacitance: `2 mF ± ${c} %`,
          bleed: `10 kΩ ± ${r} %`,
          voltage: `600 V dc ± ${v} %`
        })
        const exact = relieveTime(source('capacitor', { capacitance: '2 mF', bleed: '10 kΩ', voltage: '600 V dc' }))
        const time = relieveTime(parameters)
        if (time.kind !== 'computed' || exact.kind !== 'computed') throw new Error('not computed')
        expect(time.seconds).toBeGreaterThanOrEqual(exact.seconds)
        const within = (middle: number, spread: number) => middle * (1 + (spread / 100) * (2 * share - 1))
        const left = within(600, v) * Math.exp(-time.seconds / (within(0.002, c) * within(10000, r)))
        expect(left).toBeLessThanOrEqual(50 * (1 + 1e-9))
      }),
      { seed: 20261125 }
    )
  })

  test('what is below its safe level already needs no wait', () => {
    expect(relieveTime(source('capacitor', { ...link, voltage: '40 V dc' }))).toMatchObject({ seconds: 0 })
    const cold = { temperature: '40 °C', ambient: '60 °C', 'time-constant': '10 min' }
    expect(relieveTime(source('thermal', cold))).toMatchObject({ seconds: 0 })
  })

  test('of a declared coast-down and the friction, the longer counts', () => {
    const rotor = { inertia: '2 kg m2', speed: '1500 rpm', 'friction-torque': '1.5 N·m' }
    expect(relieveTime(source('rotating', { ...rotor, 'coast-down': '3 min' }))).toMatchObject({
      formula: 't = I·(ω0 − ω)/M'
    })
    expect(relieveTime(source('rotating', { ...rotor, 'coast-down': '5 min' }))).toMatchObject({ seconds: 300 })
    expect(relieveTime(source('rotating', { 'coast-down': '5 min ± 10 %' }))).toMatchObject({ seconds: 330 })
  })
})

describe('nothing is assumed', () => {
  test.each<[EnergyKind, Record<string, string>, readonly string[]]>([
    ['capacitor', { capacitance: '9.4 mF', voltage: '930 V dc' }, ['bleed']],
    ['capacitor', {}, ['bleed', 'capacitance', 'voltage']],
    ['magnet', { inductance: '1 H', resistance: '1 Ω', current: '5 A' }, ['safe-below']],
    ['magnet', { inductance: '1 H', resistance: '1 Ω', current: '5 A', 'safe-below': '50 V' }, ['safe-below']],
    ['rotating', { inertia: '2 kg m2', speed: '1500 rpm' }, ['friction-torque']],
    ['thermal', { temperature: '90 °C', 'time-constant': '10 min' }, ['ambient']],
    ['gas', { pressure: '7 bar', volume: '50 L' }, ['bleed-bore', 'temperature', 'discharge-coefficient', 'gas']],
    [
      'liquid',
      { pressure: '7 bar' },
      ['volume', 'bleed-bore', 'discharge-coefficient', 'density of the liquid, which no parameter gives']
    ],
    ['other', {}, ['a formula for this kind of source']]
  ])('%s with %j', (kind, texts, missing) => {
    expect(relieveTime(source(kind, texts))).toEqual({ kind: 'not-computable', missing })
  })

  test.each<[EnergyKind, Record<string, string>]>([
    ['electrical', { voltage: '690 V ac' }],
    ['battery', { voltage: '96 V dc' }],
    ['gravity', { mass: '900 kg', height: '2 m' }],
    ['spring', { rate: '50 N/mm', deflection: '60 mm' }],
    ['capacitor', { ...link, 'safe-below': '0 V' }],
    ['magnet', { inductance: '1 H', resistance: '1 Ω', current: '5 A', 'safe-below': '0 A' }],
    ['magnet', { inductance: '1 H', resistance: '0 Ω', current: '5 A', 'safe-below': '1 A' }],
    ['rotating', { inertia: '2 kg m2', speed: '1500 rpm', 'friction-torque': '0 N·m' }],
    ['thermal', { temperature: '90 °C', ambient: '50 °C', 'time-constant': '10 min' }]
  ])('%s with %j never becomes safe by waiting', (kind, texts) => {
    expect(relieveTime(source(kind, texts))).toMatchObject({ kind: 'not-decaying', why: expect.stringMatching(/\.$/) })
  })
})

describe('stored energy', () => {
  test('low and high ends of the tolerances', () => {
    const energy = storedEnergy(source('capacitor', link))
    if (energy.kind !== 'computed') throw new Error(energy.kind)
    expect(energy.joules.low).toBeCloseTo(0.5 * 0.00752 * 883.5 ** 2, 6)
    expect(energy.joules.high).toBeCloseTo(0.5 * 0.01128 * 976.5 ** 2, 6)
  })

  test('a capacitor on alternating voltage may hold the crest', () => {
    const energy = storedEnergy(source('capacitor', { capacitance: '1 mF', voltage: '400 V ac' }))
    expect(energy.kind === 'computed' && energy.joules.high).toBeCloseTo(160, 9)
  })

  test('a spring holds all of it, its preload too', () => {
    const energy = storedEnergy(source('spring', { rate: '400 N/m', deflection: '6 cm', preload: '3 cm ± 10 %' }))
    expect(energy.kind === 'computed' && energy.joules.high).toBeCloseTo(0.72, 12)
  })

  test('what is missing is named, and kinds without a figure say so', () => {
    expect(storedEnergy(source('gravity', { mass: '900 kg' }))).toEqual({ kind: 'not-computable', missing: ['height'] })
    expect(storedEnergy(source('battery', { voltage: '48 V dc' }))).toEqual({
      kind: 'not-computable',
      missing: ['capacity']
    })
    for (const kind of ['electrical', 'other'] as const) expect(storedEnergy(source(kind)).kind).toBe('no-formula')
  })
})

test('safe levels: declared, else the default of the kind, else none', () => {
  const level = (kind: EnergyKind, texts?: Record<string, string>) => safeBelow(source(kind, texts))?.written
  expect(level('capacitor', { 'safe-below': '60 V' })).toBe('60 V')
  expect(level('electrical')).toBe('50 V')
  expect(level('gas')).toBe('0.1 bar')
  expect(level('liquid')).toBe('0.1 bar')
  expect(level('rotating')).toBe('0 rpm')
  expect(level('thermal')).toBe('48 °C')
  for (const kind of ['magnet', 'gravity', 'spring', 'other'] as const) expect(level(kind)).toBeUndefined()
})
