import { createRequire } from 'node:module'
import {
  accumulatorOilEnergy,
  coastTime,
  columnDrainTime,
  isentropicEnergy,
  isothermalEnergy,
  levelAfter,
  readEnergySource,
  sourceCalculations,
  standardAtmosphere,
  standardGravity,
  timeToReach,
  type VentingVessel,
  ventingTime
} from '@lockwright/energy'
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'

/*
 * The outside reference: odex 2.0.4, a port of Hairer's extrapolation solver ODEX for ordinary differential equations.
 * It is given the laws of nature themselves, the rate at every moment, and never our closed forms or our quadrature.
 */
interface Solver {
  absoluteTolerance: number
  relativeTolerance: number
  maxSteps: number
  solve(
    rates: (at: number, values: readonly number[]) => readonly number[],
    from: number,
    initial: readonly number[],
    to: number
  ): { readonly y: readonly number[]; readonly outcome: number }
}
const { Solver: OdexSolver } = createRequire(import.meta.url)('odex') as {
  readonly Solver: new (count: number) => Solver
}

/** The value at the end. */
function solve(rate: (at: number, value: number) => number, from: number, initial: number, to: number): number {
  return solveAll((at, [value = 0]) => [rate(at, value)], from, [initial], to)[0] ?? Number.NaN
}

function solveAll(
  rates: (at: number, values: readonly number[]) => readonly number[],
  from: number,
  initial: readonly number[],
  to: number
): readonly number[] {
  const solver = new OdexSolver(initial.length)
  solver.absoluteTolerance = 1e-12
  solver.relativeTolerance = 1e-12
  solver.maxSteps = 100_000
  const { y, outcome } = solver.solve(rates, from, initial, to)
  // 0 is "converged" in odex.
  if (outcome !== 0) throw new Error(`the solver gave up with outcome ${outcome}`)
  return y
}

function expectNear(actual: number, expected: number, tolerance = 1e-8): void {
  expect(Math.abs(actual / expected - 1)).toBeLessThanOrEqual(tolerance)
}

test('the solver itself: e', () => {
  expectNear(
    solve((_, value) => value, 0, 1, 1),
    Math.E,
    1e-10
  )
})

describe('decays', () => {
  test('a capacitor: C·dV/dt = −V/R', () => {
    const [resistance, capacitance] = [18_900, 0.01128]
    const seconds = timeToReach(resistance * capacitance, 976.5, 50)
    expectNear(
      solve((_, volts) => -volts / (resistance * capacitance), 0, 976.5, seconds),
      50
    )
  })

  test('a magnet: L·dI/dt = −R·I', () => {
    expectNear(
      solve((_, current) => (-3 * current) / 7.5e-3, 0, 10, 5e-3),
      levelAfter(5e-3, 2.5e-3, 10)
    )
  })

  test('a body: dT/dt = −(T − Ta)/τ', () => {
    const seconds = timeToReach(1960, 423.15, 321.15, 296.15)
    expectNear(
      solve((_, kelvin) => -(kelvin - 296.15) / 1960, 0, 423.15, seconds),
      321.15
    )
  })

  test('a rotor: I·dω/dt = −M', () => {
    const seconds = coastTime(2, 157, 10, 1.5)
    expectNear(
      solve(() => -1.5 / 2, 0, 157, seconds),
      10
    )
  })

  test('a column: its height falls by Torricelli', () => {
    const column = { volume: 0.3, height: 12, area: 2e-4, dischargeCoefficient: 0.6 }
    const seconds = columnDrainTime(column, 1)
    const width = column.volume / column.height
    expectNear(
      solve((_, height) => (-0.6 * 2e-4 * Math.sqrt(2 * standardGravity * height)) / width, 0, 12, seconds),
      1
    )
  })
})

describe('work of a gas, as the integral of its excess pressure over its volume', () => {
  test.each([
    ['isentropic', 8e5, 0.5, 1.4],
    ['isentropic', 300e5, 0.05, 1.289],
    ['isothermal', 8e5, 0.5, 1],
    ['isothermal', 90e5, 0.01, 1]
  ])('%s from %d Pa', (name, inside, volume, exponent) => {
    const outside = standardAtmosphere
    const end = volume * (inside / outside) ** (1 / exponent)
    // In the logarithm of the volume, so that a long expansion has even steps.
    const work = solve(
      (at) => inside * (volume / Math.exp(at)) ** exponent * Math.exp(at),
      Math.log(volume),
      0,
      Math.log(end)
    )
    const ours =
      name === 'isothermal'
        ? isothermalEnergy(inside, volume, outside)
        : isentropicEnergy(inside, volume, outside, exponent)
    expectNear(ours, work)
  })

  test.each([1, 1.2, 1.4])('an accumulator with n = %d', (exponent) => {
    const [vessel, precharge, charged] = [0.01, 101e5, 211e5]
    const gas = vessel * (precharge / charged) ** (1 / exponent)
    const work = solve((volume) => charged * (gas / volume) ** exponent, gas, 0, vessel)
    expectNear(accumulatorOilEnergy(vessel, precharge, charged, exponent), work)
  })
})

describe('a vessel that vents: mass and energy of the gas inside, moment by moment', () => {
  const outside = standardAtmosphere

  /** kg/s through the hole, from the general nozzle equation and nothing else. */
  function massFlow(
    { area, dischargeCoefficient, heatRatio: k, gasConstant }: VentingVessel,
    inside: number,
    kelvin: number
  ): number {
    const critical = (2 / (k + 1)) ** (k / (k - 1))
    const ratio = Math.max(outside / inside, critical)
    const density = inside / (gasConstant * kelvin)
    const drive = ((2 * k) / (k - 1)) * inside * density * (ratio ** (2 / k) - ratio ** ((k + 1) / k))
    return dischargeCoefficient * area * Math.sqrt(Math.max(0, drive))
  }

  const cases: readonly (readonly [string, VentingVessel, number, number])[] = [
    ['B1', vessel(0.5, 6e-3, 0.8, 1.4, 287.05), 8e5, 0.1e5],
    ['B3', vessel(0.01, 4e-3, 1, 1.4, 287.05), 7e5, 0.05e5],
    ['subsonic from the start', vessel(0.1, 3e-3, 0.62, 1.4, 287.05), 1.6e5, 0.02e5],
    ['helium', vessel(0.05, 2e-3, 0.7, 1.667, 2077), 60e5, 0.1e5],
    ['a fall of more than a hundredfold', vessel(0.01, 1e-3, 0.8, 1.289, 188.9), 300e5, 0.1e5]
  ]

  function vessel(
    volume: number,
    bore: number,
    coefficient: number,
    heatRatio: number,
    gasConstant: number
  ): VentingVessel {
    const area = (Math.PI / 4) * bore ** 2
    return { volume, area, dischargeCoefficient: coefficient, heatRatio, gasConstant, temperature: 293.15 }
  }

  test.each(cases)('%s, isothermal: dm/dt = −ṁ at a constant temperature', (_, hole, inside, gauge) => {
    const seconds = ventingTime(hole, { from: inside, to: outside + gauge, outside }, 'isothermal')
    const { volume, gasConstant, temperature } = hole
    const left = solve(
      (_at, logarithm) => {
        const mass = Math.exp(logarithm)
        return -massFlow(hole, (mass * gasConstant * temperature) / volume, temperature) / mass
      },
      0,
      Math.log((inside * volume) / (gasConstant * temperature)),
      seconds
    )
    expectNear((Math.exp(left) * gasConstant * temperature) / volume, outside + gauge, 1e-7)
  })

  test.each(cases)('%s, adiabatic: dU/dt = −ṁ·h', (_, hole, inside, gauge) => {
    const seconds = ventingTime(hole, { from: inside, to: outside + gauge, outside }, 'adiabatic')
    const { volume, gasConstant, heatRatio } = hole
    const heat = gasConstant / (heatRatio - 1)
    const mass = (inside * volume) / (gasConstant * hole.temperature)
    const [, energy = 0] = solveAll(
      (_at, [kilograms = 0, joules = 0]) => {
        const kelvin = joules / (kilograms * heat)
        const flow = massFlow(hole, (joules * (heatRatio - 1)) / volume, kelvin)
        return [-flow, -flow * heatRatio * heat * kelvin]
      },
      0,
      [mass, mass * heat * hole.temperature],
      seconds
    )
    expectNear((energy * (heatRatio - 1)) / volume, outside + gauge, 1e-6)
  })
})

test('a bank of unequal elements with a bleed across it is safe when its time is over', () => {
  const percent = fc.double({ min: -1, max: 1, noNaN: true })
  fc.assert(
    fc.property(fc.array(percent, { minLength: 6, maxLength: 6 }), fc.boolean(), (off, bled) => {
      const read = readEnergySource('capacitor', {
        'element-capacitance': '4 mF ± 20 %',
        series: '3',
        parallel: '1',
        balancing: '20 kΩ ± 5 %',
        voltage: '900 V dc',
        'safe-below': '10 V'
      })
      if (!read.ok) throw new Error(read.why.join(' '))
      const { time } = sourceCalculations(read.value)
      if (time.kind !== 'computed') throw new Error(time.kind)
      const capacitances = off.slice(0, 3).map((share) => 4e-3 * (1 + 0.2 * share))
      const resistances = off.slice(3).map((share) => 20e3 * (1 + 0.05 * share))
      const bleed = bled ? 8e3 : Number.POSITIVE_INFINITY
      // In service the balancing resistors share the voltage out.
      const whole = resistances.reduce((total, ohms) => total + ohms, 0)
      const left = solveAll(
        (_at, volts) => {
          const through = volts.reduce((total, share) => total + share, 0) / bleed
          return volts.map(
            (share, index) => -(share / (resistances[index] ?? 1) + through) / (capacitances[index] ?? 1)
          )
        },
        0,
        resistances.map((ohms) => (900 * ohms) / whole),
        time.calculation.worst
      )
      expect(left.reduce((total, share) => total + share, 0)).toBeLessThanOrEqual(10 * (1 + 1e-9))
    }),
    { seed: 20261125, numRuns: 25 }
  )
})
