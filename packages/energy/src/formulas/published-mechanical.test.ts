import { describe, expect, test } from 'vitest'
import { biotNumber, coolingTimeConstant } from './cooling.js'
import { timeToReach } from './exponential.js'
import { columnDrainTime, columnEnergy, compressedLiquidEnergy } from './liquid-store.js'
import {
  coastRevolutions,
  coastTime,
  gravityEnergy,
  momentOfInertia,
  rotatingEnergy,
  springEnergy
} from './mechanical-store.js'

const published = 5e-3

function expectNear(actual: number, expected: number, tolerance: number): void {
  expect(Math.abs(actual / expected - 1)).toBeLessThanOrEqual(tolerance)
}

describe('rotating', () => {
  test('R1: four rotor blades', () => {
    // OpenStax College Physics m42180: I 1067 kg·m², 5.26e5 J at 300 rpm.
    const inertia = 4 * momentOfInertia.rodAboutEnd(50, 4)
    expectNear(inertia, 1067, published)
    expectNear(rotatingEnergy(inertia, 10 * Math.PI), 5.26e5, published)
    expectNear(rotatingEnergy(inertia, 10 * Math.PI), 526_379, 2e-6) // computed
  })

  test('R2: a grindstone', () => {
    // The same: I 4.352 kg·m², 64.0 J at 5.42 rad/s.
    expect(momentOfInertia.disk(85, 0.32)).toBeCloseTo(4.352, 12)
    expectNear(rotatingEnergy(momentOfInertia.disk(85, 0.32), 5.42), 64, published)
  })

  test('R3: a ring flywheel', () => {
    // A published question on flywheels: I 2.027 kg·m², about 10 MJ at 30 000 rpm.
    const inertia = momentOfInertia.ring(48, 0.2055)
    expectNear(inertia, 2.027, published)
    expectNear(rotatingEnergy(inertia, 1000 * Math.PI), 10e6, published)
  })

  test('R5: 12 N·m over eight revolutions', () => {
    // OpenStax University Physics m58333: 603.186 J, 6.3 rad/s of 30.0 kg·m².
    expectNear(coastRevolutions(603.186, 12), 8, 2e-6)
    expectNear(rotatingEnergy(30, 6.34132), 603.186, 2e-6) // computed
  })

  test('R6: coasting against constant friction', () => {
    const speed = 50 * Math.PI
    expectNear(coastRevolutions(rotatingEnergy(2, speed), 1.5), 2617.99, 3e-6) // computed
    expectNear(coastTime(2, speed, 0, 1.5), 209.44, 3e-6) // computed
  })

  test('a rod about its middle, by the parallel-axis theorem', () => {
    expect(momentOfInertia.rodAboutMiddle(3, 2) + 3 * 1 ** 2).toBeCloseTo(momentOfInertia.rodAboutEnd(3, 2), 12)
  })
})

describe('gravity and springs', () => {
  test('G1 with the rounded g of the book, G2 by its height', () => {
    // OpenStax College Physics m42152: 1764 J; m42180: 53.7 m.
    expectNear(gravityEnergy(60, 3, 9.8), 1764, 1e-12)
    expectNear(5.26e5 / gravityEnergy(1000, 1), 53.7, published)
  })

  test('P2: half let out, a quarter is left', () => {
    // OpenStax University Physics m58312: 0.18 J and 0.72 J, difference 0.54 J.
    expect(springEnergy(400, 0.06) - springEnergy(400, 0.03)).toBeCloseTo(0.54, 12)
    expect(springEnergy(400, 0.03) / springEnergy(400, 0.06)).toBeCloseTo(0.25, 12)
  })

  test('P3: the toy car', () => {
    // OpenStax College Physics m42149: 0.100 kg leaves at 2.00 m/s.
    expectNear(springEnergy(250, 0.04), 0.5 * 0.1 * 2 ** 2, 1e-12)
  })
})

describe('liquid', () => {
  test('H6: oil in a press', () => {
    // OpenStax University Physics m58342: 250 L, 2300 psi, compressibility 2.0e-5 an atmosphere: 0.78 L.
    const pressure = 2300 * 6894.757293168361
    const bulkModulus = 101_325 / 2.0e-5
    expectNear((pressure / bulkModulus) * 250, 0.78, published)
    expectNear(compressedLiquidEnergy(0.25, pressure, bulkModulus), 6205, 1e-4) // computed
  })

  test('a column of water: the energy of its middle, and its running out in slices', () => {
    // Closed form against m·g·h/2 with ρ = 1000 kg/m³.
    const height = 12
    const pressure = 1000 * 9.80665 * height
    expectNear(columnEnergy(0.3, pressure), gravityEnergy(300, height / 2), 1e-12)
    const column = { volume: 0.3, height, area: 2e-4, dischargeCoefficient: 0.6 }
    // From full to a quarter of the height takes half the time that running empty takes.
    expectNear(columnDrainTime(column, height / 4) / columnDrainTime(column, 0), 0.5, 1e-12)
    expect(columnDrainTime(column, height)).toBe(0)
  })
})

describe('thermal', () => {
  test('T3: time constant and times', () => {
    const constant = coolingTimeConstant(20, 490, 10, 0.5)
    expect(constant).toBeCloseTo(1960, 9) // computed
    expectNear(timeToReach(constant, 150, 48, 23), 3185.61, 5e-6) // computed
  })

  test('the Biot number of that body is far below 0.1', () => {
    // Steel at 50 W/(m·K), from memory; 20 kg at 7850 kg/m³ over 0.5 m².
    expect(biotNumber(10, 20 / 7850 / 0.5, 50)).toBeLessThan(0.1)
  })
})
