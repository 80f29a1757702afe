import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { integrate } from '../formulas/integrate.js'
import { type DecayFit, type DecayReading, fitDecay } from './fit-decay.js'
import { studentQuantile } from './student-quantile.js'

function falling(fit: DecayFit): Extract<DecayFit, { kind: 'falling' }> {
  if (fit.kind !== 'falling') throw new Error(fit.kind === 'not-enough' ? fit.why : fit.kind)
  return fit
}

const exponential =
  (start: number, constant: number, floor = 0) =>
  (seconds: number): DecayReading => ({
    seconds,
    level: floor + (start - floor) * Math.exp(-seconds / constant)
  })

describe('a clean decay', () => {
  test('two readings give the time constant and the moment, and no certainty', () => {
    const readings = [0, 60].map(exponential(930, 200))
    const fit = falling(fitDecay(readings, { model: { kind: 'exponential', floor: 0 }, safe: 50 }))
    expect(fit.timeConstant?.best).toBeCloseTo(200, 9)
    expect(fit.safeAt.best).toBeCloseTo(200 * Math.log(930 / 50), 6)
    expect(fit.timeConstant?.interval).toBeUndefined()
    expect(fit.safeAt.interval).toBeUndefined()
    expect(fit.signs).toEqual([])
  })

  test('whatever the numbers, the fit of exact readings is exact', () => {
    const positive = (min: number, max: number) => fc.double({ min, max, noNaN: true })
    fc.assert(
      fc.property(positive(100, 2000), positive(5, 5000), positive(0, 40), (start, constant, floor) => {
        const readings = [0, 0.3, 0.7, 1.1].map((share) => exponential(start, constant, floor)(share * constant))
        const fit = fitDecay(readings, {
          model: { kind: 'exponential', floor },
          safe: floor + 5,
          accuracy: { share: 1e-3 }
        })
        const { timeConstant, safeAt } = falling(fit)
        expect((timeConstant?.best ?? 0) / constant).toBeCloseTo(1, 9)
        expect(safeAt.interval?.low).toBeLessThanOrEqual(safeAt.best)
        expect(safeAt.interval?.high).toBeGreaterThanOrEqual(safeAt.best)
      }),
      { seed: 20261125, numRuns: 60 }
    )
  })

  test('within the error of the instrument the true moment is inside the interval', () => {
    const error = fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 4, maxLength: 4 })
    fc.assert(
      fc.property(error, (off) => {
        const readings = [0, 40, 80, 120].map((seconds, index) => {
          const { level } = exponential(930, 200)(seconds)
          return { seconds, level: level + (off[index] ?? 0) * (0.01 * level + 1) * 0.99 }
        })
        const question = {
          model: { kind: 'exponential', floor: 0 },
          safe: 50,
          accuracy: { share: 0.0101, fixed: 1.01 }
        } as const
        const { timeConstant, safeAt } = falling(fitDecay(readings, question))
        const truth = 200 * Math.log(930 / 50)
        expect(safeAt.interval?.low).toBeLessThanOrEqual(truth)
        expect(safeAt.interval?.high).toBeGreaterThanOrEqual(truth)
        expect(timeConstant?.interval?.low).toBeLessThanOrEqual(200)
        expect(timeConstant?.interval?.high).toBeGreaterThanOrEqual(200)
      }),
      { seed: 20261125, numRuns: 100 }
    )
  })

  test('a rotor falls on a straight line', () => {
    const readings = [0, 10, 20].map((seconds) => ({ seconds, level: 150 - 2 * seconds }))
    const fit = falling(fitDecay(readings, { model: { kind: 'linear' }, safe: 0 }))
    expect(fit.fall?.best).toBeCloseTo(2, 9)
    expect(fit.safeAt.best).toBeCloseTo(75, 9)
  })

  test('the sign of a voltage does not matter', () => {
    const readings = [0, 60].map(exponential(930, 200)).map(({ seconds, level }) => ({ seconds, level: -level }))
    const fit = falling(fitDecay(readings, { model: { kind: 'exponential', floor: 0 }, safe: 50 }))
    expect(fit.timeConstant?.best).toBeCloseTo(200, 9)
  })
})

describe('signs that something is not as it should be', () => {
  const model = { kind: 'exponential', floor: 0, slowest: 213.2 } as const
  const accuracy = { share: 0.005, fixed: 0.5 }
  const kinds = (fit: DecayFit) =>
    fit.signs.map((sign) => (sign.kind === 'slower-than-worst-case' ? `${sign.certainty} ${sign.kind}` : sign.kind))

  test('as fast as the worst case is no sign', () => {
    expect(kinds(fitDecay([0, 60, 120].map(exponential(930, 213.2)), { model, safe: 50, accuracy }))).toEqual([])
    expect(kinds(fitDecay([0, 60, 120].map(exponential(930, 213.2)), { model, safe: 50 }))).toEqual([])
  })

  test('slower, for certain and perhaps', () => {
    expect(kinds(fitDecay([0, 60, 120].map(exponential(930, 400)), { model, safe: 50, accuracy }))).toEqual([
      'clear slower-than-worst-case'
    ])
    expect(kinds(fitDecay([0, 60].map(exponential(930, 220)), { model, safe: 50, accuracy }))).toEqual([
      'possible slower-than-worst-case'
    ])
    // Two readings of an unknown instrument can say nothing for certain.
    expect(kinds(fitDecay([0, 60].map(exponential(930, 400)), { model, safe: 50 }))).toEqual([
      'possible slower-than-worst-case'
    ])
  })

  test('stopped: against what is declared, and against what it did before', () => {
    const stopped = [
      { seconds: 0, level: 930 },
      { seconds: 60, level: 700 },
      { seconds: 120, level: 698 }
    ]
    expect(kinds(fitDecay(stopped, { model, safe: 50, accuracy: { share: 1e-3 } }))).toContain('stopped-falling')
    const unknown = { kind: 'exponential', floor: 0 } as const
    expect(kinds(fitDecay(stopped, { model: unknown, safe: 50 }))).toEqual(['stopped-falling'])
    expect(kinds(fitDecay(stopped, { model: unknown, safe: 800 }))).not.toContain('stopped-falling')
  })

  test('readings so near each other that the instrument cannot tell are not called stopped', () => {
    const close = [
      { seconds: 0, level: 930 },
      { seconds: 1, level: 930 }
    ]
    expect(kinds(fitDecay(close, { model, safe: 50, accuracy: { share: 0.01 } }))).not.toContain('stopped-falling')
  })

  test('rising, and not falling at all', () => {
    const rising = [
      { seconds: 0, level: 100 },
      { seconds: 60, level: 140 }
    ]
    const fit = fitDecay(rising, { model, safe: 50, accuracy })
    expect(fit.kind).toBe('not-falling')
    expect(fit.signs[0]).toEqual({ kind: 'rising', from: 100, to: 140 })
  })

  test('a rise after a short is dielectric absorption, and what came before the short is not fitted', () => {
    const readings = [
      { seconds: 0, level: 930 },
      { seconds: 100, level: 0.2 },
      { seconds: 400, level: 18 },
      { seconds: 900, level: 31 }
    ]
    const fit = fitDecay(readings, { model, safe: 50, accuracy, shortedAt: [90] })
    expect(fit.kind).toBe('reached')
    expect(fit.signs).toEqual([{ kind: 'rise-after-short', from: 0.2, to: 31 }])
    expect(fitDecay(readings, { model, safe: 25, accuracy, shortedAt: [90] })).toMatchObject({
      signs: [{ kind: 'rise-after-short' }, { kind: 'stopped-falling' }, { kind: 'slower-than-worst-case' }]
    })
  })
})

describe('readings that say nothing', () => {
  const model = { kind: 'exponential', floor: 0 } as const

  test.each<[string, DecayReading[], RegExp]>([
    ['one', [{ seconds: 0, level: 900 }], /two readings/],
    [
      'out of order',
      [
        { seconds: 10, level: 900 },
        { seconds: 0, level: 950 }
      ],
      /order/
    ],
    ['no number', [{ seconds: 0, level: Number.NaN }], /no number/],
    [
      'within the error of nothing',
      [
        { seconds: 0, level: 60 },
        { seconds: 5, level: 55 }
      ],
      /too near/
    ]
  ])('%s', (_, readings, why) => {
    const fit = fitDecay(readings, { model, safe: 50, accuracy: { fixed: 70 } })
    expect(fit).toMatchObject({ kind: 'not-enough', why: expect.stringMatching(why) })
  })

  test('a safe level that is not above what it falls to', () => {
    const readings = [0, 60].map(exponential(360, 600, 325))
    expect(fitDecay(readings, { model: { kind: 'exponential', floor: 325 }, safe: 321 })).toMatchObject({
      kind: 'not-enough',
      why: expect.stringContaining('not below the safe one')
    })
  })

  test('at the safe level with the error of the instrument counted against it', () => {
    const readings = [0, 600].map(exponential(930, 200))
    expect(fitDecay(readings, { model, safe: 50, accuracy: { fixed: 1 } }).kind).toBe('reached')
    expect(fitDecay(readings, { model, safe: 50, accuracy: { fixed: 5 } }).kind).toBe('falling')
  })

  test('where the band never comes down there is no latest moment', () => {
    const readings = [
      { seconds: 0, level: 930 },
      { seconds: 1, level: 926 }
    ]
    const { safeAt } = falling(fitDecay(readings, { model, safe: 50, accuracy: { share: 0.01 } }))
    expect(safeAt.interval?.high).toBe(Number.POSITIVE_INFINITY)
  })
})

test('the quantiles of Student hold 95 %, by quadrature of the density', () => {
  const gammaRatio = (degrees: number): number => {
    // Γ((n+1)/2)/Γ(n/2), by recurrence from Γ(1)/Γ(1/2) and Γ(3/2)/Γ(1).
    let value = degrees % 2 === 1 ? 1 / Math.sqrt(Math.PI) : Math.sqrt(Math.PI) / 2
    for (let n = degrees % 2 === 1 ? 1 : 2; n < degrees; n += 2) value *= (n + 1) / n
    return value
  }
  for (const degrees of [1, 2, 3, 5, 10, 17, 30]) {
    const scale = gammaRatio(degrees) / Math.sqrt(degrees * Math.PI)
    const density = (at: number): number => scale * (1 + at ** 2 / degrees) ** (-(degrees + 1) / 2)
    expect(2 * integrate(density, 0, studentQuantile(degrees), 40)).toBeCloseTo(0.95, 4)
  }
  expect(studentQuantile(1000)).toBe(studentQuantile(30))
  expect(studentQuantile(0)).toBe(studentQuantile(1))
})
