import { describe, expect, test } from 'vitest'
import type { EnergyKind } from '../energy-parameters.js'
import { readEnergySource } from '../read-parameter.js'
import { sourceCalculations } from './source-calculations.js'

/**
 * What the sheet prints must be arithmetic that a reader can repeat. A small calculator of its own reads the figures
 * as printed, units left out, and has to come to the printed result.
 */
function worked(text: string): number {
  const plain = text
    .replaceAll('ln(', 'L(')
    .replaceAll('max(', 'M(')
    .replaceAll('²', '^2')
    .replaceAll('½', '0.5')
    .replaceAll('π', '*3.141592653589793')
    .replaceAll('−', '-')
    .replaceAll('·', '*')
    // Units stand behind a number and a space; what is left of one has no digits in it but its own exponents.
    .replace(
      /(?<=\d) (?:m\/kg\^\(1\/3\)|J\/\(kg\*K\)|J\/kg|kg\*m\^2|kg\*m²|m\/s\^2|N\*m|N\/m|rad\/s|m\^2|m³|Pa|kg|[VAFΩHCJsmKN])(?![\w])/g,
      ''
    )
    .replace(/\s/g, '')
    .replace(/^\*|(?<=\()\*/g, '')
  let at = 0
  const take = (token: string): boolean => {
    if (!plain.startsWith(token, at)) return false
    at += token.length
    return true
  }
  const sum = (): number => {
    let value = term()
    for (;;) {
      if (take('+')) value += term()
      else if (take('-')) value -= term()
      else return value
    }
  }
  const term = (): number => {
    let value = power()
    for (;;) {
      if (take('*')) value *= power()
      else if (take('/')) value /= power()
      else return value
    }
  }
  const power = (): number => {
    const base = atom()
    return take('^') ? base ** power() : base
  }
  const atom = (): number => {
    if (take('√')) return Math.sqrt(atom())
    if (take('L(')) return Math.log(closed())
    if (take('M(')) {
      const first = sum()
      if (!take(';')) throw new Error(`no second value at ${plain.slice(at)}`)
      return Math.max(first, closed())
    }
    if (take('(')) return closed()
    const number = /^-?\d+(\.\d+)?/.exec(plain.slice(at))?.[0]
    if (number === undefined) throw new Error(`no number at ${plain.slice(at)} of ${plain}`)
    at += number.length
    // 2π is twice π.
    return Number(number)
  }
  const closed = (): number => {
    const value = sum()
    if (!take(')')) throw new Error(`no closing bracket at ${plain.slice(at)} of ${plain}`)
    return value
  }
  const value = sum()
  if (at !== plain.length) throw new Error(`left over: ${plain.slice(at)} of ${plain}`)
  return value
}

test('the calculator itself', () => {
  expect(worked('½·0.01128 F·(976.5 V)²')).toBeCloseTo(5378.0, 1)
  expect(worked('2·3 + 4/(1 − 3)^2')).toBe(7)
  expect(worked('√(16) − ln(1)')).toBe(4)
  expect(() => worked('3 +')).toThrow()
})

const sources: readonly (readonly [EnergyKind, Record<string, string>])[] = [
  ['capacitor', { capacitance: '9.4 mF ± 20 %', voltage: '930 V dc ± 5 %', bleed: '18 kΩ ± 5 %' }],
  ['capacitor', { capacitance: '100 µF ± 10 %', voltage: '400 V ac', bleed: '270 kΩ' }],
  [
    'capacitor',
    {
      'element-capacitance': '4.7 mF ± 20 %',
      series: '2',
      parallel: '3',
      balancing: '27 kΩ ± 5 %',
      voltage: '800 V dc'
    }
  ],
  ['magnet', { inductance: '2 H', current: '10 A ± 5 %', resistance: '4 Ω', 'safe-below': '0.5 A' }],
  ['magnet', { inductance: '2 H', current: '10 A ± 5 %', resistance: '4 Ω', 'safe-below': '0.5 J' }],
  ['rotating', { inertia: '1.2 kg m2 ± 10 %', speed: '1480 rpm', 'friction-torque': '6 N·m', 'coast-down': '90 s' }],
  ['gravity', { mass: '1800 kg', height: '1.6 m' }],
  ['spring', { rate: '50 N/mm ± 5 %', deflection: '60 mm', preload: '500 N' }],
  ['spring', { rate: '50 N/mm ± 5 %', deflection: '60 mm', preload: '1 cm' }],
  [
    'gas',
    {
      pressure: '7 bar',
      volume: '12 L',
      'bleed-bore': '4 mm',
      temperature: '20 °C',
      gas: 'air',
      'discharge-coefficient': '0.8 ± 10 %'
    }
  ],
  ['liquid', { pressure: '180 bar', precharge: '90 bar ± 10 %', 'gas-volume': '10 L' }],
  ['liquid', { pressure: '180 bar', volume: '50 L', 'bulk-modulus': '15000 bar' }],
  [
    'liquid',
    {
      pressure: '4.2 bar',
      volume: '3 m³',
      'column-height': '42 m',
      'bleed-bore': '2 in',
      'discharge-coefficient': '0.6'
    }
  ],
  ['thermal', { temperature: '180 °C', ambient: '30 °C', 'time-constant': '20 min', 'safe-below': '48 °C' }],
  ['battery', { voltage: '48 V dc ± 5 %', capacity: '100 Ah' }],
  ['battery', { voltage: '48 V dc ± 5 %', capacity: '5 kWh' }]
]

/** Sentences in place of arithmetic: an integral, and the floors of a distance. */
const inWords = /by quadrature|30 m up to/

describe.each(sources)('%s %j', (kind, texts) => {
  const read = readEnergySource(kind, texts)
  if (!read.ok) throw new Error(read.why.join(' '))
  const { energy, time, further } = sourceCalculations(read.value)
  const lines = [energy, time, ...further].flatMap((outcome) =>
    outcome.kind === 'computed'
      ? [outcome.calculation.substitution, ...outcome.calculation.steps.map(({ substitution }) => substitution)]
      : []
  )

  test('every line of figures comes out', () => {
    expect(lines.length).toBeGreaterThan(0)
    for (const line of lines.filter((text) => !inWords.test(text))) {
      const [, ...sides] = line.split(' = ')
      const values = sides.map(worked)
      for (const value of values) expect([line, value / (values.at(-1) ?? 0)]).toEqual([line, expect.closeTo(1, 5)])
    }
  })
})
