import { curvePoints, type EnergyParameters, type Outcome, type Quantity, sourceCalculations } from '@lockwright/energy'
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type Case, cases, type Drawn } from './calculation-cases.js'

function quantity({ dimension, reference }: Drawn, low: number, high: number): Quantity {
  const si = (low + high) / 2
  const referred = reference === undefined ? {} : { reference }
  return { written: String(si), value: si, unit: '', dimension, tolerance: 0, si, interval: { low, high }, ...referred }
}

type Ranges = Readonly<Record<string, readonly [number, number]>>

function source(wanted: Case, ranges: Ranges): EnergyParameters {
  const entries = Object.entries(wanted.draw).map(([name, drawn]) => {
    const [low, high] = ranges[name] ?? [Number.NaN, Number.NaN]
    return [name, quantity(drawn, low, high)] as const
  })
  return { kind: wanted.kind, quantities: Object.fromEntries(entries), gas: 'air' }
}

function outcomes(parameters: EnergyParameters): ReadonlyMap<string, Outcome> {
  const { energy, time, further } = sourceCalculations(parameters)
  // The time that is waited for spans two processes: each of them stands among the further ones with its own range.
  const all = [...(parameters.kind === 'gas' ? [] : [time]), energy, ...further]
  return new Map(all.map((outcome) => [outcome.kind === 'computed' ? outcome.calculation.id : outcome.id, outcome]))
}

function result(all: ReadonlyMap<string, Outcome>, id: string): readonly [low: number, high: number] {
  const outcome = all.get(id)
  if (outcome?.kind !== 'computed') throw new Error(`${id} is ${outcome?.kind}`)
  return [outcome.calculation.result.low, outcome.calculation.result.high]
}

const share = fc.double({ min: 0, max: 1, noNaN: true })

describe.each(cases)('$name', (wanted) => {
  const names = Object.keys(wanted.draw)
  const ids = Object.keys(wanted.expected)
  const drawn = fc.tuple(...names.map(() => fc.tuple(share, share, share)))
  const run = { seed: 20261125, numRuns: 40 }

  /** Where a share of the way lies in the range of a parameter. */
  const within = (name: string, part: number): number => {
    const { from, to } = wanted.draw[name] ?? { from: 0, to: 0 }
    return from + (to - from) * part
  }
  const rangesOf = (parts: readonly (readonly [number, number, number])[]): Ranges =>
    Object.fromEntries(
      names.map((name, index) => {
        const [one = 0, other = 0] = parts[index] ?? []
        return [name, [within(name, Math.min(one, other)), within(name, Math.max(one, other))] as const]
      })
    )

  test('no result is negative, and each interval holds everything between its corners', () => {
    fc.assert(
      fc.property(drawn, fc.array(fc.integer({ min: 0, max: 2 }), { minLength: 8, maxLength: 8 }), (parts, corners) => {
        const ranges = rangesOf(parts)
        const wide = outcomes(source(wanted, ranges))
        // Each parameter at its low end, at its high end, or somewhere between.
        const point = Object.fromEntries(
          names.map((name, index) => {
            const [low, high] = ranges[name] ?? [0, 0]
            const at = [low, high, low + (high - low) * (parts[index]?.[2] ?? 0)][corners[index] ?? 0] ?? low
            return [name, [at, at] as const]
          })
        )
        const exact = outcomes(source(wanted, point))
        for (const id of ids) {
          const [low, high] = result(wide, id)
          const [value, again] = result(exact, id)
          expect(low).toBeGreaterThanOrEqual(0)
          expect(value).toBe(again)
          const hair = 1e-9 * high
          expect(value).toBeGreaterThanOrEqual(low - hair)
          expect(value).toBeLessThanOrEqual(high + hair)
        }
      }),
      run
    )
  })

  test('each result rises or falls with each parameter as it should', () => {
    fc.assert(
      fc.property(drawn, (parts) => {
        const base = names.map((name, index) => [name, within(name, parts[index]?.[2] ?? 0)] as const)
        names.forEach((changed, index) => {
          const [one = 0, other = 0] = parts[index] ?? []
          const at = (part: number) =>
            outcomes(
              source(
                wanted,
                Object.fromEntries(
                  base.map(([name, value]) => {
                    const used = name === changed ? within(name, part) : value
                    return [name, [used, used] as const]
                  })
                )
              )
            )
          const [below, above] = [at(Math.min(one, other)), at(Math.max(one, other))]
          for (const id of ids) {
            const [[first], [second]] = [result(below, id), result(above, id)]
            const hair = 1e-9 * Math.max(first, second)
            switch (wanted.expected[id]?.[index]) {
              case '+':
                expect(second).toBeGreaterThanOrEqual(first - hair)
                break
              case '-':
                expect(second).toBeLessThanOrEqual(first + hair)
                break
              case '0':
                expect(second).toBe(first)
                break
            }
          }
        })
      }),
      run
    )
  })

  test('where there is a curve it never rises, and it is at the safe level when the time is over', () => {
    fc.assert(
      fc.property(drawn, (parts) => {
        const parameters = source(wanted, rangesOf(parts))
        const curve = curvePoints(parameters, 24)
        const time = sourceCalculations(parameters).time
        if (curve === undefined || time.kind !== 'computed') return
        for (const line of [curve.slow, curve.fast]) {
          line.forEach((point, index) => {
            const before = line[index - 1]
            expect(Number.isFinite(point.level) && Number.isFinite(point.seconds)).toBe(true)
            if (before === undefined) return
            expect(point.level).toBeLessThanOrEqual(before.level + 1e-9 * Math.abs(before.level))
            expect(point.seconds).toBeGreaterThanOrEqual(before.seconds)
          })
        }
        const early = curve.slow.filter(({ seconds }) => seconds < time.calculation.worst * (1 - 1e-9))
        for (const { level } of early) expect(level).toBeGreaterThanOrEqual(curve.safe - 1e-9 * Math.abs(curve.safe))
        const late = curve.slow.filter(({ seconds }) => seconds >= time.calculation.worst * (1 - 1e-12))
        expect(late.length).toBeGreaterThan(0)
        for (const { level } of late) expect(level).toBeLessThanOrEqual(curve.safe + 1e-6 * Math.abs(curve.safe) + 1e-9)
      }),
      run
    )
  })
})

test('every kind whose level falls by waiting has a curve among the cases', () => {
  const middle = (wanted: Case): EnergyParameters =>
    source(
      wanted,
      Object.fromEntries(
        Object.entries(wanted.draw).map(([name, { from, to }]) => [name, [(from + to) / 2, (from + to) / 2] as const])
      )
    )
  const plotted = cases.filter((wanted) => curvePoints(middle(wanted)) !== undefined).map(({ name }) => name)
  expect(plotted).toEqual([
    'capacitor',
    'bank',
    'magnet',
    'rotating',
    'rotor with a measured coast-down',
    'gas',
    'column',
    'thermal'
  ])
})
