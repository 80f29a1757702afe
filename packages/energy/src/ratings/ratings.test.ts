import { describe, expect, test } from 'vitest'
import { lockoutDevices, tagPullFits } from './lockout-device.js'
import { compareRatings, impulseImpedance, impulseVolts, measurementSteps, testerFits } from './tester-rating.js'

describe('testers', () => {
  test('the steps of IEC 61010-2-030:2010', () => {
    // An instrument maker's manual, page 29.
    const impulses = measurementSteps.map(({ volts, impulse }) => [volts, impulse.II, impulse.III, impulse.IV])
    expect(impulses).toEqual([
      [150, 1550, 2500, 4000],
      [300, 2500, 4000, 6000],
      [600, 4000, 6000, 8000],
      [1000, 6000, 8000, 12_000]
    ])
    const tests = measurementSteps.map(({ test: volts }) => [volts.II, volts.III, volts.IV])
    expect(tests).toEqual([
      [840, 1390, 2210],
      [1390, 2210, 3310],
      [2210, 3310, 4260],
      [3310, 4260, 6600]
    ])
  })

  test('CAT III 1000 V and CAT IV 600 V are not ordered: both stand 8 kV at 2 Ω', () => {
    const [third, fourth] = [{ category: 'III', volts: 1000 } as const, { category: 'IV', volts: 600 } as const]
    expect(compareRatings(third, fourth)).toBe('not-ordered')
    expect(compareRatings(fourth, third)).toBe('not-ordered')
    expect([impulseVolts(third), impulseVolts(fourth)]).toEqual([8000, 8000])
    // "The International Safety Standard IEC61010", a page on measurement categories.
    expect([impulseImpedance.II, impulseImpedance.III, impulseImpedance.IV]).toEqual([12, 2, 2])
  })

  test('what is ordered', () => {
    expect(compareRatings({ category: 'IV', volts: 600 }, { category: 'III', volts: 600 })).toBe('stronger')
    expect(compareRatings({ category: 'III', volts: 300 }, { category: 'III', volts: 600 })).toBe('weaker')
    expect(compareRatings({ category: 'II', volts: 300 }, { category: 'II', volts: 300 })).toBe('same')
    expect(impulseVolts({ category: 'III', volts: 1500 })).toBeUndefined()
  })

  test('a tester fits where one of its ratings has both, and so have its leads', () => {
    const meter = [
      { category: 'III', volts: 1000 },
      { category: 'IV', volts: 600 }
    ] as const
    const leads = [{ category: 'III', volts: 1000 }] as const
    expect(testerFits([meter], { category: 'III', volts: 690 })).toBe(true)
    expect(testerFits([meter], { category: 'IV', volts: 400 })).toBe(true)
    expect(testerFits([meter], { category: 'IV', volts: 690 })).toBe(false)
    // The lowest-rated part governs.
    expect(testerFits([meter, leads], { category: 'IV', volts: 400 })).toBe(false)
    expect(testerFits([], { category: 'II', volts: 12 })).toBe(false)
  })
})

test('the attachment of a tag holds 50 lbf, 222.4 N', () => {
  // 29 CFR 1910.147(c)(5)(ii)(C)(2); newtons computed.
  expect(lockoutDevices.find(({ device }) => device === 'tag')?.newtons).toBeCloseTo(222.4, 1)
  expect(lockoutDevices.find(({ device }) => device === 'lock')?.newtons).toBeUndefined()
  expect(tagPullFits(222.5)).toBe(true)
  expect(tagPullFits(222)).toBe(false)
})
