import { describe, expect, test } from 'vitest'
import type { EnergyKind } from '../energy-parameters.js'
import { energyMagnitude, energyThresholds, fallingMass, feltAs } from './energy-magnitude.js'
import { dischargeStandards, dischargeTrap, standardsAbove, voltageLimits } from './residual-voltage.js'
import { touchThreshold, touchThresholds } from './touch-threshold.js'

describe('how dangerous an energy is', () => {
  const magnitude = (kind: EnergyKind, joules: number): string => {
    const judged = energyMagnitude(kind, joules)
    return judged.kind === 'judged' ? judged.magnitude : judged.kind
  }

  test.each<[EnergyKind, number, string]>([
    // A safety sheet on the discharge of capacitors: 0.1 J, 0.25 J, 10 J.
    ['capacitor', 0.09, 'trivial'],
    ['capacitor', 0.25, 'dangerous'],
    ['capacitor', 10, 'very-dangerous'],
    // From memory: ISO 14120, 4 J; hazardous fragment, 79 J.
    ['gravity', 3.9, 'trivial'],
    ['spring', 4, 'dangerous'],
    ['rotating', 79, 'very-dangerous'],
    // A university page on gas vessels: 100 kJ.
    ['gas', 99_999, 'dangerous'],
    ['gas', 100_000, 'very-dangerous'],
    ['battery', 1e6, 'no-threshold'],
    ['thermal', 1e6, 'no-threshold'],
    ['electrical', 1e6, 'no-threshold'],
    ['other', 1e6, 'no-threshold']
  ])('%s of %d J is %s', (kind, joules, expected) => {
    expect(magnitude(kind, joules)).toBe(expected)
  })

  test('every threshold has a source, and each kind has them in rising order', () => {
    for (const { source, says } of energyThresholds) expect(source.length * says.length).toBeGreaterThan(0)
    for (const kind of new Set(energyThresholds.flatMap(({ kinds }) => kinds))) {
      const joules = energyThresholds.filter(({ kinds }) => kinds.includes(kind)).map((row) => row.joules)
      expect(joules).toEqual(joules.toSorted((one, other) => one - other))
    }
  })

  test('a comparison that is felt', () => {
    expect(fallingMass(9.80665)).toBe(1)
    expect(feltAs(9.80665)).toBe('as the fall of 1 kg (2.2 lb) from 1 m')
    expect(feltAs(5378)).toBe('as the fall of 548 kg (1210 lb) from 1 m')
    expect(feltAs(0.25)).toBe('as the fall of 25.5 g from 1 m')
    expect(feltAs(1e-3)).toBe('less than the fall of 1 g from 1 m')
    expect(feltAs(5e6)).toBe('as the fall of 510 t from 1 m')
  })
})

describe('the trap of 75 V', () => {
  test('standards that let a capacitor stand above 50 V', () => {
    const above = standardsAbove(50).map(({ standard, volts }) => `${standard}: ${volts}`)
    expect(above).toContain('IEC 60831-1: 75')
    expect(above).toContain('IEC 60871-1: 75')
    expect(above.some((text) => text.startsWith('NEC'))).toBe(false)
    expect(standardsAbove(75)).toEqual([])
  })

  test('it is said, unless the capacitor never was above it', () => {
    expect(dischargeTrap(976.5, 50)).toBe(
      'A capacitor built to IEC 60831-1 or IEC 60871-1 may stand at 75 V when its rated discharge time is over, which is still above 50 V: that time is no proof.'
    )
    expect(dischargeTrap(70, 50)).toContain('may stand at 60 V')
    expect(dischargeTrap(55, 50)).toBeUndefined()
    expect(dischargeTrap(976.5, 75)).toBeUndefined()
  })

  test('times and charges that the standards give', () => {
    // IEC 60204-1 6.2.4, IEC 60831 (old IEC 831) and IEC 60871-1, at second hand.
    const of = (standard: string) => dischargeStandards.find((row) => row.standard.startsWith(standard))
    expect(of('IEC 60204-1')).toMatchObject({ volts: 60, seconds: 5, exemptCharge: 60e-6 })
    expect(of('IEC 60831-1')).toMatchObject({ volts: 75, seconds: 180 })
    expect(of('IEC 60871-1')).toMatchObject({ volts: 75, seconds: 600 })
    expect(of('NEC 460.6')).toMatchObject({ volts: 50, seconds: 60 })
    expect(of('IEC 61010-1')).toMatchObject({ exemptCharge: 45e-6 })
    // 29 CFR 1910.303(g)(2)(i) makes no difference between alternating and direct voltage.
    expect(voltageLimits[0]).toMatchObject({ ac: 50, dc: 50 })
  })
})

describe('touching hot surfaces, ISO 13732-1', () => {
  const celsius = (surface: string, contact: string): number => {
    const found = touchThreshold(surface, contact)
    return found.kind === 'found' ? found.celsius : Number.NaN
  }

  test.each([
    // Bare metal 65 to 70 °C at 1 s and 55 to 60 °C at 10 s, at second hand; 51, 48 and 43 °C, from memory.
    ['bare metal', '1 s', 65],
    ['painted steel', '1 s', 65],
    ['cast iron', '10 s', 55],
    ['steel', '4 s', 55],
    ['glass', '1 min', 56],
    ['plastic cover', '60 s', 60],
    ['wood', '10 min', 48],
    ['copper', '8 h', 43],
    ['copper', '12 h', 43]
  ])('%s for %s: %d °C', (surface, contact, expected) => {
    expect(celsius(surface, contact)).toBe(expected)
  })

  test('longer contact never allows more, and metal never more than another material', () => {
    touchThresholds.forEach((row, index) => {
      const longer = touchThresholds[index + 1]
      for (const material of Object.keys(row.celsius) as (keyof typeof row.celsius)[]) {
        expect(row.celsius['bare metal']).toBeLessThanOrEqual(row.celsius[material])
        if (longer !== undefined) expect(longer.celsius[material]).toBeLessThanOrEqual(row.celsius[material])
      }
    })
  })

  test('what is missing or not understood is said', () => {
    expect(touchThreshold(undefined, '1 s')).toEqual({ kind: 'missing', missing: ['surface'] })
    expect(touchThreshold(undefined, undefined)).toEqual({ kind: 'missing', missing: ['surface', 'contact'] })
    expect(touchThreshold('fur', '1 s')).toMatchObject({
      kind: 'not-understood',
      why: expect.stringContaining('`fur`')
    })
    expect(touchThreshold('steel', 'briefly')).toMatchObject({ kind: 'not-understood' })
    expect(touchThreshold('steel', '3 kg')).toMatchObject({ kind: 'not-understood' })
  })
})
