import { describe, expect, test } from 'vitest'
import { calculate } from '../calculations/calculate.js'
import { bankEnergyOf, bankOpenResistorOf, bankTimeOf } from '../calculations/capacitor-bank.js'
import { readEnergySource } from '../read-parameter.js'
import { batteryEnergy, capacitorCharge, capacitorEnergy, dischargeResistance, magnetEnergy } from './electric-store.js'
import { levelAfter, timeToReach } from './exponential.js'

/*
 * Worked examples that `handbook.test.ts` does not cover. Published figures are rounded to three digits (0.5 %);
 * "computed" is arithmetic in another tool, with no published source.
 */
const published = 5e-3

function expectNear(actual: number, expected: number, tolerance: number): void {
  expect(Math.abs(actual / expected - 1)).toBeLessThanOrEqual(tolerance)
}

describe('capacitor', () => {
  test('C2: three capacitors together', () => {
    // OpenStax University Physics m58450: 0.29 mJ.
    const total = capacitorEnergy(12e-6, 4) + capacitorEnergy(2e-6, 8) + capacitorEnergy(4e-6, 8)
    expectNear(total, 0.29e-3, 1e-2)
    expect(total).toBeCloseTo(288e-6, 12)
  })

  test('C3: what is left after three time constants', () => {
    // OpenStax College Physics m42363: 498 V after 24.0 ms.
    expectNear(levelAfter(24e-3, 8e-3, 10e3), 498, published)
  })

  test('C5: charging to 80 V is the gap falling from 100 V to 20 V', () => {
    // OpenStax University Physics m58457: time constant 5.05 s, 8.13 s.
    expectNear(timeToReach(101 * 50e-3, 100, 100 - 80), 8.13, published)
  })

  test('C6 and C7: discharge resistors of a 50 kvar delta', () => {
    // Discharge resistors TS 03-010I, after the old IEC 831: 268 kΩ and 74.5 kΩ.
    const perPhase = 50e3 / (3 * 2 * Math.PI * 50 * 400 ** 2)
    expectNear(perPhase, 331.573e-6, 2e-6) // computed
    expectNear(dischargeResistance(180, perPhase, 400, 75), 268e3, published)
    expectNear(dischargeResistance(60, perPhase, 400, 50), 74.5e3, published)
    expectNear(dischargeResistance(180, perPhase, 400, 75), 268.673e3, 3e-6) // computed
    expect(dischargeResistance(180, perPhase, 400, 75, 3)).toBeCloseTo(268673 / 3, 0) // computed: V connection
  })

  test('C8: residual energy at 60 V', () => {
    expectNear(capacitorEnergy(2200e-6, 60), 3.96, 1e-12) // computed
  })

  test('a drive that waits 760 s from 825 V to 50 V has a time constant of 271 s', () => {
    // Drive FAQ "Why DC bus discharge time is calculated from 825V to 50V".
    expectNear(timeToReach(271.1, 825, 50), 760, 1e-3)
  })

  test('charge after IEC 61010-1: 4.4 µF still at 80 V holds 352 µC, and fails the 45 µC', () => {
    // Mailing list of product safety engineers, msg65744.
    expect(capacitorCharge(4.4e-6, 80)).toBeCloseTo(352e-6, 15)
    // computed: the 60 µC of IEC 60204-1 is 0.1 µF at 600 V.
    expect(capacitorCharge(0.1e-6, 600)).toBeCloseTo(60e-6, 15)
  })
})

describe('magnet', () => {
  test('L2: current after two time constants', () => {
    // OpenStax College Physics m42425: 1.35 A.
    expectNear(levelAfter(5e-3, 7.5e-3 / 3, 10), 1.35, published)
    expectNear(levelAfter(5e-3, 7.5e-3 / 3, 10), 1.35335, 3e-6) // computed
  })

  test('L3: a hundredth of the energy is a tenth of the current', () => {
    // OpenStax University Physics m58752: 2.3 s with a time constant of 1.0 s.
    const left = levelAfter(2.3, 1, 1)
    expectNear(magnetEnergy(1, left) / magnetEnergy(1, 1), 0.01, 1e-2)
  })
})

test('battery: one ampere-hour at one volt is 3600 J', () => {
  // By the definition of the ampere-hour.
  expect(batteryEnergy(1, 3600)).toBe(3600)
})

describe('a bank, in closed form', () => {
  const read = readEnergySource('capacitor', {
    'element-capacitance': '4700 µF',
    series: '2',
    parallel: '3',
    balancing: '27 kΩ',
    voltage: '800 V dc',
    'safe-below': '50 V'
  })
  if (!read.ok) throw new Error(read.why.join(' '))
  const bank = read.value

  test('energy: C = 3·4.7 mF/2', () => {
    const outcome = bankEnergyOf(bank)
    expect(outcome.kind === 'computed' && outcome.calculation.worst).toBeCloseTo(0.5 * 7.05e-3 * 800 ** 2, 9)
  })

  test('time: each position through its own resistor', () => {
    const outcome = bankTimeOf(bank)
    expect(outcome.kind === 'computed' && outcome.calculation.worst).toBeCloseTo(27e3 * 14.1e-3 * Math.log(16), 9)
  })

  test('an open resistor leaves a share', () => {
    const outcome = bankOpenResistorOf(bank)
    expect(outcome.kind === 'computed' && outcome.calculation.worst).toBe(400)
  })
})

test('an expression that names no term is a fault of the package', () => {
  expect(() =>
    calculate(
      { kind: 'other', quantities: {} },
      {
        id: 'x',
        title: 'X',
        symbol: 'x',
        dimension: 'number',
        needs: {},
        expression: '{mass}',
        evaluate: () => 1,
        source: ''
      }
    )
  ).toThrow('names `mass`')
})
