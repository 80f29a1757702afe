import { describe, expect, test } from 'vitest'
import type { EnergyKind, EnergyParameters } from '../energy-parameters.js'
import { readEnergySource } from '../read-parameter.js'
import type { Calculation, Outcome } from './calculation.js'
import { sourceCalculations } from './source-calculations.js'

/** Closed forms, worked out here by hand from the same textbook formulas: equal to 1e-9. */
function read(kind: EnergyKind, texts: Readonly<Record<string, string>>): EnergyParameters {
  const source = readEnergySource(kind, texts)
  if (!source.ok) throw new Error(source.why.join(' '))
  return source.value
}

function all(parameters: EnergyParameters): readonly Outcome[] {
  const { energy, time, further } = sourceCalculations(parameters)
  return [energy, time, ...further]
}

function found(parameters: EnergyParameters, id: string): Calculation {
  const outcome = all(parameters).find((one) => one.kind === 'computed' && one.calculation.id === id)
  if (outcome?.kind !== 'computed') throw new Error(`${id} is not computed`)
  return outcome.calculation
}

const link = { capacitance: '9.4 mF ± 20 %', voltage: '930 V dc ± 5 %', bleed: '18 kΩ ± 5 %' }

describe('a calculation shows itself', () => {
  const time = found(read('capacitor', link), 'capacitor-time')

  test('result, worst side and formula', () => {
    expect(time.result.high / (18_900 * 0.01128 * Math.log(976.5 / 50)) - 1).toBeCloseTo(0, 9)
    expect(time.result.low / (17_100 * 0.00752 * Math.log(883.5 / 50)) - 1).toBeCloseTo(0, 9)
    expect(time.worst).toBe(time.result.high)
    expect(time.formula).toBe('t = R·C·ln(V0/V)')
    expect(time.substitution).toBe('t = 18900 Ω·0.01128 F·ln(976.5 V/50 V) = 633.596 s')
    expect(time.source).toBe('RC discharge: OpenStax College Physics, module m42363')
    expect(time.unit).toBe('s')
  })

  test('inputs, where each comes from and which end was used', () => {
    expect(time.inputs.map(({ name, symbol, used, origin, written }) => [name, symbol, used, origin, written])).toEqual(
      [
        ['bleed', 'R', 18_900, 'declared', '18 kΩ ± 5 %'],
        ['capacitance', 'C', 0.01128, 'declared', '9.4 mF ± 20 %'],
        ['voltage', 'V0', 976.5, 'declared', '930 V dc ± 5 %'],
        ['safe-below', 'V', 50, 'default', '50 V']
      ]
    )
  })

  test('an assumed heat ratio is said, a named gas is not assumed', () => {
    const air = { pressure: '7 bar', volume: '0.5 m³' }
    const assumed = found(read('gas', air), 'gas-isentropic')
    expect(assumed.inputs.find(({ name }) => name === 'heat-ratio')).toMatchObject({ used: 1.4, origin: 'assumed' })
    expect(assumed.notes.join(' ')).toContain('γ is that of air or nitrogen')
    const named = found(read('gas', { ...air, gas: 'argon' }), 'gas-isentropic')
    expect(named.inputs.find(({ name }) => name === 'heat-ratio')).toMatchObject({ used: 1.667, origin: 'constant' })
    expect(named.notes.join(' ')).not.toContain('γ is that of')
  })

  test('nothing to wait for is said, not reckoned', () => {
    const calm = found(read('capacitor', { ...link, voltage: '40 V dc' }), 'capacitor-time')
    expect(calm.substitution).toBe('t = 0 s')
    expect(calm.notes[0]).toBe('It starts at or below its safe level: there is nothing to wait for.')
    const vacuum = found(read('gas', { pressure: '-0.5 bar', volume: '1 m³' }), 'gas-isentropic')
    expect(vacuum.worst).toBe(0)
    expect(vacuum.notes[0]).toContain('a vacuum still pulls')
  })
})

describe('absolute and gauge pressures', () => {
  test('an absolute pressure is taken as it is, a gauge one with the atmosphere, which can be given', () => {
    const volume = { volume: '2 m³' }
    const joules = (texts: Record<string, string>) =>
      found(read('gas', { ...volume, ...texts }), 'gas-isothermal').worst
    expect(joules({ pressure: '8 bara' }) / (8e5 * 2 * Math.log(8e5 / 101_325)) - 1).toBeCloseTo(0, 9)
    expect(joules({ pressure: '7 bar' }) / (801_325 * 2 * Math.log(801_325 / 101_325)) - 1).toBeCloseTo(0, 9)
    expect(joules({ pressure: '7 bar', atmosphere: '0.8 bar' }) / (7.8e5 * 2 * Math.log(7.8 / 0.8)) - 1).toBeCloseTo(
      0,
      9
    )
  })

  test('the step from gauge to absolute is shown', () => {
    const energy = found(read('gas', { pressure: '7 bar', volume: '2 m³' }), 'gas-isothermal')
    expect(energy.steps).toEqual([
      {
        symbol: 'P2',
        unit: 'Pa',
        formula: 'P2 = p2 + P1',
        substitution: 'P2 = 700000 Pa + 101325 Pa = 801325 Pa',
        value: 801_325
      }
    ])
  })
})

test('an accumulator whose precharge may lie at the worst value between its ends', () => {
  // p·ln(P/p) is largest at p = P/e: 210 bar + 1 atm over e is 76.9 bar above ambient.
  const parameters = read('liquid', { pressure: '210 bar', precharge: '77 bar ± 40 %', 'gas-volume': '10 L' })
  const { result } = found(parameters, 'accumulator-oil-energy')
  const charged = 210e5 + 101_325
  expect(result.high / ((charged / Math.E) * 0.01) - 1).toBeCloseTo(0, 9)
  const high = 77e5 * 1.4 + 101_325
  const low = 77e5 * 0.6 + 101_325
  const ends = [low, high].map((precharge) => precharge * 0.01 * Math.log(charged / precharge))
  expect(result.low / Math.min(...ends) - 1).toBeCloseTo(0, 9)
  expect(Math.max(...ends)).toBeLessThan(result.high)
})

test('after a fall of more than a hundredfold the adiabatic time is waited for, and the range holds both', () => {
  const vessel = {
    volume: '10 L',
    'bleed-bore': '1 mm',
    temperature: '20 °C',
    gas: 'air',
    'discharge-coefficient': '0.8'
  }
  const high = read('gas', { ...vessel, pressure: '300 bar' })
  const low = read('gas', { ...vessel, pressure: '7 bar' })
  const waited = (parameters: EnergyParameters): Calculation => {
    const { time } = sourceCalculations(parameters)
    if (time.kind !== 'computed') throw new Error(time.kind)
    return time.calculation
  }
  expect(waited(high).id).toBe('gas-venting-adiabatic')
  expect(waited(low).id).toBe('gas-venting-isothermal')
  expect(waited(low).result.low).toBe(found(low, 'gas-venting-adiabatic').result.low)
})

describe('what is missing and what never ends', () => {
  test.each<[EnergyKind, Record<string, string>, string, readonly string[]]>([
    [
      'gas',
      { pressure: '7 bar', volume: '50 L' },
      'gas-venting-isothermal',
      ['bleed-bore', 'temperature', 'discharge-coefficient', 'gas']
    ],
    ['liquid', { pressure: '7 bar', volume: '50 L' }, 'liquid-compression-energy', ['bulk-modulus']],
    ['liquid', { precharge: '7 bar' }, 'accumulator-oil-energy', ['pressure', 'gas-volume']],
    ['thermal', {}, 'energy', ['heat capacity, which no parameter gives']],
    ['capacitor', { 'element-capacitance': '1 mF', voltage: '800 V' }, 'bank-energy', ['series', 'parallel']],
    ['battery', { voltage: '48 V' }, 'battery-energy', ['capacity']]
  ])('%s with %j lacks what %s needs', (kind, texts, id, missing) => {
    const outcome = all(read(kind, texts)).find((one) => one.kind !== 'computed' && one.id === id)
    expect(outcome).toMatchObject({ kind: 'not-computable', missing })
  })

  test.each<[EnergyKind, Record<string, string>, RegExp]>([
    ['magnet', { inductance: '1 H', current: '5 A', resistance: '0 Ω', 'safe-below': '1 J' }, /no resistance/],
    ['magnet', { inductance: '1 H', current: '5 A', resistance: '1 Ω', 'safe-below': '0 J' }, /exactly 0 J/],
    [
      'gas',
      {
        pressure: '7 bar',
        volume: '50 L',
        'bleed-bore': '2 mm',
        temperature: '20 °C',
        gas: 'air',
        'discharge-coefficient': '0.8',
        'safe-below': '-0.1 bar'
      },
      /below the ambient one/
    ],
    [
      'gas',
      {
        pressure: '7 bar',
        volume: '50 L',
        'bleed-bore': '0 mm',
        temperature: '20 °C',
        gas: 'air',
        'discharge-coefficient': '0.8'
      },
      /nothing open/
    ],
    [
      'liquid',
      {
        pressure: '2 bar',
        volume: '50 L',
        'column-height': '20 m',
        'bleed-bore': '0 mm',
        'discharge-coefficient': '0.6'
      },
      /nothing open/
    ]
  ])('%s with %j', (kind, texts, why) => {
    expect(sourceCalculations(read(kind, texts)).time).toMatchObject({ kind: 'never', why: expect.stringMatching(why) })
  })

  test('a magnet to a safe energy takes half the time of the current, squared', () => {
    // E falls as I²: ½·L·I² down to 0.5 J of 2 H is I = 0.7071 A.
    const coil = { inductance: '2 H', current: '10 A', resistance: '4 Ω' }
    const toEnergy = found(read('magnet', { ...coil, 'safe-below': '0.5 J' }), 'magnet-time')
    expect(toEnergy.worst / (0.5 * Math.log(10 / Math.SQRT1_2)) - 1).toBeCloseTo(0, 9)
  })
})
