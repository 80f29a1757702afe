import { describe, expect, test } from 'vitest'
import { accumulatorGasVolume, accumulatorOilEnergy, accumulatorOilVolume, worstPrecharge } from './accumulator.js'
import { chokedMassFlow, criticalRatio, type VentingVessel, ventingTime, ventingTimeConstant } from './blow-down.js'
import {
  pccAtmosphere,
  pccDistance,
  pccEnergy,
  pccLowerEnergy,
  pccUpperEnergy,
  scaledDistance,
  tntEquivalent,
  tntHeats
} from './burst-distance.js'
import {
  availabilityEnergy,
  brodeEnergy,
  isentropicEnergy,
  isothermalEnergy,
  standardAtmosphere
} from './gas-expansion.js'
import { conductanceVentingTime } from './sonic-conductance.js'

/*
 * Left out because their own numbers are wrong, and tested below where a right figure can be set against them:
 * - bad: a pneumatic chamber of 400 gallons at 404.7 psia, printed as 27 574 000 ft·lb (0.03632^0.2908 taken as 0.6375, then a
 *   slip by ten): it holds 4 699 380 ft·lb;
 * - bad: an accumulator sizing page whose two gas volumes stand under each other's label (H1);
 * - bad: a diving cylinder blow-down whose printed 1 mm orifice does not give its printed 11.68 s;
 * - bad: a handbook's blow-down formula with (k+1) for (k−1);
 * - bad: "5788 kJ a pound" of TNT.
 */
function expectNear(actual: number, expected: number, tolerance: number): void {
  expect(Math.abs(actual / expected - 1)).toBeLessThanOrEqual(tolerance)
}

const published = 5e-3
const half = (last: number): number => 0.51 / last

describe('energy of compressed gas', () => {
  // All computed. PCC-2 with 101 000 Pa, the others with 101 325 Pa and γ 1.4.
  test.each([
    ['A1', 7e5, 0.5, 447_467, 0.1049, 11.88, 446_876, 875_000, 828_543, 478_543],
    ['A2', 10e5, 1, 1_362_509, 0.3193, 17.22, 1_360_801, 2_500_000, 2_627_691, 1_627_691],
    ['A3', 16e5, 2, 4_712_472, 1.1044, 26.05, 4_707_032, 8_000_000, 9_598_295, 6_398_295],
    ['A4', 70e5, 10, 124_921_087, 29.2766, 77.66, 124_815_164, 175_000_000, 301_785_257, 231_785_257]
  ])('%s: all methods', (_, gauge, volume, pcc, tnt, distance, isentropic, brode, isothermal, availability) => {
    const inside = gauge + standardAtmosphere
    expectNear(pccEnergy(gauge + pccAtmosphere, volume), pcc, half(pcc))
    expectNear(tntEquivalent(pcc), tnt, 5e-4)
    expectNear(scaledDistance(tntEquivalent(pcc)), distance, 5e-4)
    expectNear(isentropicEnergy(inside, volume, standardAtmosphere, 1.4), isentropic, half(isentropic))
    expectNear(brodeEnergy(inside, volume, standardAtmosphere, 1.4), brode, 1e-12)
    expectNear(isothermalEnergy(inside, volume, standardAtmosphere), isothermal, half(isothermal))
    expectNear(availabilityEnergy(inside, volume, standardAtmosphere), availability, half(availability))
  })

  test('A5: 50 L at 200 bar', () => {
    // A page on energy in pressure vessels: 5.298 MJ isothermal. The others computed.
    expectNear(isothermalEnergy(200e5, 0.05, 1e5), 5.298e6, published)
    expectNear(isothermalEnergy(200e5, 0.05, 1e5), 5_298_317, half(5_298_317))
    expectNear(isentropicEnergy(200e5, 0.05, 1e5, 1.4), 1.95e6, published)
    expectNear(brodeEnergy(200e5, 0.05, 1e5, 1.4), 2.488e6, published)
    expectNear(availabilityEnergy(200e5, 0.05, 1e5), 4.303e6, published)
  })

  test('A6: a mole at 300 K grows threefold', () => {
    // OpenStax University Physics m58397: 2.74e3 J. P·V is n·R·T.
    expectNear(isothermalEnergy(3e5, (8.314 * 300) / 3e5, 1e5), 2.74e3, published)
    expectNear(isothermalEnergy(3e5, (8.314 * 300) / 3e5, 1e5), 2740.16, 3e-6) // computed
  })

  test('A7: adiabatic compression from 240 to 40 cm³', () => {
    // OpenStax University Physics m58401: 1.23e6 Pa, work −63 J; what is put in comes out again.
    const inside = 1e5 * 6 ** 1.4
    expectNear(inside, 1.23e6, published)
    expectNear(isentropicEnergy(inside, 40e-6, 1e5, 1.4), 63, published)
    expectNear(isentropicEnergy(inside, 40e-6, 1e5, 1.4), 62.86, 2e-4) // computed
  })

  test('the bad example of 400 gallons, put right', () => {
    // Computed: 4 699 380 ft·lb, 6.3715 MJ; the page printed 27 574 000 ft·lb.
    const psi = 6894.757293168361
    const joules = isentropicEnergy(404.7 * psi, 400 * 0.003785411784, 14.7 * psi, 1.41)
    expectNear(joules, 6.3715e6, 1e-3)
    expect(joules / 1.3558179483314).toBeLessThan(27_574_000 / 5.8)
  })
})

describe('ASME PCC-2 bands and TNT', () => {
  test('at the limits of the bands', () => {
    // Computed from equations II-3 and III-1.
    expectNear(tntEquivalent(pccLowerEnergy), 31.756, 2e-5)
    expectNear(scaledDistance(tntEquivalent(pccLowerEnergy)), 79.796, 1e-5)
    expectNear(tntEquivalent(pccUpperEnergy), 63.512, 1e-5)
    expectNear(scaledDistance(tntEquivalent(pccUpperEnergy)), 100.537, 1e-5)
  })

  test('the floor of 30 m governs below about 7.20 MJ, that of 60 m never with a factor of 20', () => {
    expect(pccDistance(7.19e6)).toBe(30)
    expect(pccDistance(7.21e6)).toBeGreaterThan(30)
    expect(pccDistance(pccLowerEnergy * 1.0001)).toBeGreaterThan(60)
    // With a smaller factor it does.
    expect(pccDistance(pccLowerEnergy * 1.0001, 2)).toBe(60)
    expect(pccDistance(pccUpperEnergy * 1.0001, 2)).toBeLessThan(60)
  })

  test('constants in print differ by a ninth', () => {
    // PCC-2, the convention (from memory) and a university page.
    const heats = Object.values(tntHeats).map(({ joulesPerKilogram }) => joulesPerKilogram)
    expect(heats).toEqual([4_266_920, 4_184_000, 4_620_000])
    expect(tntEquivalent(4_184_000, tntHeats.convention.joulesPerKilogram)).toBe(1)
  })
})

describe('blow-down', () => {
  const outside = standardAtmosphere
  const vessel = (volume: number, bore: number, dischargeCoefficient: number, temperature = 293.15): VentingVessel => ({
    volume,
    area: (Math.PI / 4) * bore ** 2,
    dischargeCoefficient,
    heatRatio: 1.4,
    gasConstant: 287.05,
    temperature
  })

  test('the critical ratio of air', () => {
    // A process-engineering text on blow-down, computed: 0.528282; choked above 191 801 Pa.
    expectNear(criticalRatio(1.4), 0.528282, 1e-6)
    expectNear(outside / criticalRatio(1.4), 191_801, 3e-6)
    // A web page says 1.83 for the inverse; 1.893 is right.
    expectNear(1 / criticalRatio(1.4), 1.893, 1e-4)
  })

  test('mass flow of air through a choked hole', () => {
    // Computed: 0.0404149·Cd·A·P0/√T (a page rounds it to 0.0408).
    const flow = chokedMassFlow({ ...vessel(1, 1, 1), area: 1 }, 1)
    expectNear(flow * Math.sqrt(293.15), 0.0404149, 2e-6)
  })

  // Computed, Simpson with 200 000 steps, for geometries of the same text and of a forum question without an answer (B4).
  test.each([
    ['B1', vessel(0.5, 6e-3, 0.8), 7e5, 0.1e5, 111.287, 0.042785, 159.119, 126.096, 228.13, 189.157],
    ['B2', vessel(0.1, 3e-3, 0.62), 6e5, 0.1e5, 114.877, 0.007255, 148.939, 116.875, 220.177, 180.742],
    ['B3', vessel(0.01, 4e-3, 1), 6e5, 0.05e5, 4.0063, 0.020803, 5.1943, 4.076, 8.0366, 6.637],
    [
      'B4',
      vessel(206 * 0.0254 ** 3, 0.228 * 0.0254, 0.85, 294.26),
      600 * 6894.757293168361,
      0.1e5,
      0.7576,
      0.22356,
      2.3452,
      2.1067,
      2.815,
      2.6513
    ]
  ])(
    '%s: constants, choked part and whole',
    (_, hole, from, to, constant, flow, choked, chokedCold, whole, wholeCold) => {
      const pressures = { from: from + outside, to: to + outside, outside }
      const toChoking = { ...pressures, to: outside / criticalRatio(1.4) }
      expectNear(ventingTimeConstant(hole), constant, 1e-4)
      expectNear(chokedMassFlow(hole, pressures.from), flow, 1e-4)
      expectNear(ventingTime(hole, toChoking, 'isothermal'), choked, 1e-4)
      expectNear(ventingTime(hole, toChoking, 'adiabatic'), chokedCold, 1e-4)
      expectNear(ventingTime(hole, pressures, 'isothermal'), whole, 1e-4)
      expectNear(ventingTime(hole, pressures, 'adiabatic'), wholeCold, 1e-4)
    }
  )

  test('a field formula with 5.5 is 8.4 % on the safe side: its constant is 5.0759', () => {
    // The same text; V in ft³, A in in², T in °R, P in psia, SG and Z of one. Computed.
    const hole = { ...vessel(0.3048 ** 3, 1, 1, 1 / 1.8), area: 0.0254 ** 2 }
    expectNear(ventingTimeConstant(hole), 5.0759, 1e-4)
    expectNear(5.5 / 5.0759, 1.084, 1e-3)
  })

  test('the bad diving cylinder: its printed seconds do not belong to its printed hole of 1 mm', () => {
    // Printed: 11.68 s choked, 20.49 s in all. Computed: what 1 mm gives, with the density of air as printed, 1.21 kg/m³.
    const cylinder = { ...vessel(11.11e-3, 1e-3, 0.85, 288.15), gasConstant: outside / (1.21 * 288.15) }
    expectNear(ventingTimeConstant(cylinder), 83.99, 1e-4)
    // As the text does, the choked formula down to one atmosphere, which into a vacuum is right.
    const down = { from: 20.68e6, to: outside, outside: 1000 }
    expectNear(ventingTime(cylinder, down, 'adiabatic'), 477.8, 1e-3)
    expectNear(ventingTime(cylinder, down, 'isothermal'), 446.7, 1e-3)
  })

  test('after a fall of more than a hundredfold the adiabatic time is the longer one', () => {
    const hole = vessel(0.01, 1e-3, 1)
    const longer = (ratio: number): boolean => {
      const down = { from: ratio * 2e5, to: 2e5, outside }
      return ventingTime(hole, down, 'adiabatic') > ventingTime(hole, down, 'isothermal')
    }
    expect([2, 10, 50, 80, 100, 200].map(longer)).toEqual([false, false, false, false, true, true])
  })

  test('ambient is reached in finite time, anything below never, and a shut hole never vents', () => {
    const hole = vessel(0.5, 6e-3, 0.8)
    expect(ventingTime(hole, { from: 8e5, to: outside, outside }, 'isothermal')).toBeLessThan(300)
    expect(ventingTime(hole, { from: 8e5, to: outside - 1, outside }, 'isothermal')).toBe(Number.POSITIVE_INFINITY)
    expect(ventingTime({ ...hole, area: 0 }, { from: 8e5, to: 2e5, outside }, 'adiabatic')).toBe(
      Number.POSITIVE_INFINITY
    )
    expect(ventingTime(hole, { from: 2e5, to: 2e5, outside }, 'adiabatic')).toBe(0)
  })

  test('ISO 6358: 10 L through 2 dm³/(s·bar) with b 0.3', () => {
    // Formula from memory; computed: 3.6439 s to the choking limit, 10.171 s to 1.1 bar absolute.
    const component = { volume: 0.01, conductance: 2e-3 / 1e5, criticalRatio: 0.3 }
    const limit = outside / 0.3
    expectNear(limit, 3.3775e5, 1e-6)
    expectNear(conductanceVentingTime(component, { from: 7e5, to: limit, outside }), 3.6439, 1e-5)
    expectNear(conductanceVentingTime(component, { from: 7e5, to: 1.1e5, outside }), 10.171, 1e-5)
    expect(conductanceVentingTime(component, { from: 7e5, to: 1e5, outside })).toBe(Number.POSITIVE_INFINITY)
  })
})

describe('accumulator', () => {
  const bar = (gauge: number): number => gauge * 1e5 + standardAtmosphere

  test('H1: sizing for one litre between 100 and 200 bar', () => {
    // An accumulator sizing page: term 0.361, 2.77 L. Its gas volumes at 100 and 200 bar are printed the wrong way round.
    const litre = (pressure: number): number => accumulatorOilVolume(1, bar(90), bar(pressure), 1.4)
    expectNear(litre(200) - litre(100), 0.361, published)
    const size = 1 / (litre(200) - litre(100))
    expectNear(size, 2.77, published)
    expectNear(size, 2.7744, 1e-4) // computed
    expectNear(accumulatorGasVolume(size, bar(90), bar(100), 1.4), 2.5753, 1e-4) // computed
    expectNear(accumulatorGasVolume(size, bar(90), bar(200), 1.4), 1.5753, 1e-4) // computed
  })

  test('H2: ten gallons after Boyle', () => {
    // A petroleum engineering article: 8.33, 3.33 and 5.0 gallons, gauge taken as absolute.
    expectNear(accumulatorGasVolume(10, 1000, 1200, 1), 8.33, published)
    expectNear(accumulatorGasVolume(10, 1000, 3000, 1), 3.33, published)
    expectNear(accumulatorOilVolume(10, 1000, 3000, 1) - accumulatorOilVolume(10, 1000, 1200, 1), 5, published)
    const usable = accumulatorGasVolume(10, 1014.7, 1214.7, 1) - accumulatorGasVolume(10, 1014.7, 3014.7, 1)
    expectNear(usable, 4.988, 2e-4) // computed
  })

  // Computed.
  test.each([
    ['H3', 1, 4.7871, 5.2129, 74_413],
    ['H4', 1.4, 5.9085, 4.0915, 59_160]
  ])('%s: gas, oil and energy down to the precharge', (_, exponent, gas, oil, joules) => {
    expectNear(accumulatorGasVolume(10, bar(100), bar(210), exponent), gas, 2e-5)
    expectNear(accumulatorOilVolume(10, bar(100), bar(210), exponent), oil, 2e-5)
    expectNear(accumulatorOilEnergy(0.01, bar(100), bar(210), exponent), joules, 1e-5)
  })

  test('H5: after the oil is drained more is left in the gas than the oil gave up', () => {
    const left = isentropicEnergy(bar(100), 0.01, standardAtmosphere, 1.4)
    expectNear(left, 184_726, half(184_726)) // computed
    expect(left).toBeGreaterThan(2 * accumulatorOilEnergy(0.01, bar(100), bar(210), 1))
  })

  test('the worst precharge is a maximum', () => {
    for (const exponent of [1, 1.2, 1.4]) {
      const worst = worstPrecharge(bar(210), exponent)
      const at = (precharge: number): number => accumulatorOilEnergy(0.01, precharge, bar(210), exponent)
      expect(at(worst)).toBeGreaterThan(at(worst * 0.99))
      expect(at(worst)).toBeGreaterThan(at(worst * 1.01))
    }
  })
})
