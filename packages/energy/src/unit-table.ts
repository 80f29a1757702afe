import type { Dimension } from './quantity.js'

/** One line of the closed table of units; `spell` are further spellings, `prefixes` apply to all of them. */
export interface UnitRow {
  readonly dimension: Dimension
  /** As it is shown to people. */
  readonly symbol: string
  /** Size in the coherent SI unit, exact: a decimal or a fraction of two decimals. */
  readonly factor: string
  readonly spell?: readonly string[]
  readonly prefixes?: string
  /** Temperature: kelvin at the zero of the scale. */
  readonly zero?: string
  readonly reference?: 'gauge' | 'absolute'
}

/** SI Brochure (BIPM, 9th edition), table 7. */
export const prefixFactors: Readonly<Record<string, string>> = {
  p: '1e-12',
  n: '1e-9',
  µ: '1e-6',
  m: '1e-3',
  c: '1e-2',
  h: '1e2',
  k: '1e3',
  M: '1e6',
  G: '1e9'
}

const inch = '0.0254'
const foot = '0.3048'
const gallon = '0.003785411784'
const pound = '0.45359237'
const poundForce = '4.4482216152605'
const psi = `${poundForce}/0.00064516`
// π to 36 digits: one revolution per minute is π/30 rad/s.
const pi = '3.14159265358979323846264338327950288'

const product = (left: string, right: string): string => `${left}*${right}`

function pressures(symbol: string, factor: string, prefixes: string): readonly UnitRow[] {
  const row = { dimension: 'pressure', factor, prefixes } as const
  return [
    { ...row, symbol, reference: 'gauge' },
    { ...row, symbol: `${symbol}g`, spell: [`${symbol}(g)`], reference: 'gauge' },
    { ...row, symbol: `${symbol}a`, spell: [`${symbol}(a)`], reference: 'absolute' }
  ]
}

/**
 * Every unit that a procedure may use. US customary factors are the exact ones of NIST Special Publication 811
 * (2008), appendix B; the gallon is the US one. `ft·lbf` is an energy and `lbf·ft` a torque, as is usual in the
 * trade; `C` and `F` are coulomb and farad, temperatures need their degree sign or `deg`.
 */
export const unitTable: readonly UnitRow[] = [
  { dimension: 'voltage', symbol: 'V', factor: '1', prefixes: 'µ m k M' },
  { dimension: 'current', symbol: 'A', factor: '1', prefixes: 'µ m k' },
  { dimension: 'capacitance', symbol: 'F', factor: '1', prefixes: 'p n µ m' },
  { dimension: 'resistance', symbol: 'Ω', factor: '1', spell: ['ohm', 'Ohm'], prefixes: 'µ m k M G' },
  { dimension: 'inductance', symbol: 'H', factor: '1', prefixes: 'µ m' },
  { dimension: 'charge', symbol: 'C', factor: '1', prefixes: 'n µ m k' },
  { dimension: 'charge', symbol: 'Ah', factor: '3600', spell: ['A·h'], prefixes: 'm k' },
  { dimension: 'power', symbol: 'W', factor: '1', prefixes: 'm k M' },
  { dimension: 'energy', symbol: 'J', factor: '1', prefixes: 'µ m k M' },
  { dimension: 'energy', symbol: 'Wh', factor: '3600', spell: ['W·h'], prefixes: 'k' },
  { dimension: 'energy', symbol: 'ft·lbf', factor: product(foot, poundForce) },
  { dimension: 'time', symbol: 's', factor: '1', spell: ['sec', 'second', 'seconds'] },
  { dimension: 'time', symbol: 'ms', factor: '0.001' },
  { dimension: 'time', symbol: 'µs', factor: '0.000001' },
  { dimension: 'time', symbol: 'min', factor: '60', spell: ['minute', 'minutes'] },
  { dimension: 'time', symbol: 'h', factor: '3600', spell: ['hr', 'hour', 'hours'] },
  { dimension: 'time', symbol: 'd', factor: '86400', spell: ['day', 'days'] },
  ...pressures('Pa', '1', 'h k M'),
  ...pressures('bar', '100000', 'm'),
  ...pressures('psi', psi, ''),
  { dimension: 'volume', symbol: 'm³', factor: '1' },
  { dimension: 'volume', symbol: 'L', factor: '0.001', spell: ['l', 'dm³'] },
  { dimension: 'volume', symbol: 'mL', factor: '0.000001', spell: ['ml', 'cm³'] },
  { dimension: 'volume', symbol: 'gal', factor: gallon },
  { dimension: 'volume', symbol: 'ft³', factor: product(product(foot, foot), foot) },
  { dimension: 'volume', symbol: 'in³', factor: product(product(inch, inch), inch) },
  { dimension: 'length', symbol: 'm', factor: '1', prefixes: 'µ m c k' },
  { dimension: 'length', symbol: 'in', factor: inch, spell: ['inch', 'inches'] },
  { dimension: 'length', symbol: 'ft', factor: foot, spell: ['foot', 'feet'] },
  { dimension: 'area', symbol: 'm²', factor: '1' },
  { dimension: 'area', symbol: 'cm²', factor: '0.0001' },
  { dimension: 'area', symbol: 'mm²', factor: '0.000001' },
  { dimension: 'area', symbol: 'ft²', factor: product(foot, foot) },
  { dimension: 'area', symbol: 'in²', factor: product(inch, inch) },
  { dimension: 'mass', symbol: 'g', factor: '0.001', prefixes: 'm k' },
  { dimension: 'mass', symbol: 't', factor: '1000', spell: ['tonne', 'tonnes'] },
  { dimension: 'mass', symbol: 'lb', factor: pound, spell: ['lbs'] },
  { dimension: 'inertia', symbol: 'kg·m²', factor: '1', spell: ['kgm²'] },
  { dimension: 'inertia', symbol: 'lb·ft²', factor: product(product(pound, foot), foot) },
  { dimension: 'angular-speed', symbol: 'rpm', factor: `${pi}/30`, spell: ['1/min', 'rev/min', 'r/min', 'min⁻¹'] },
  { dimension: 'angular-speed', symbol: 'rev/s', factor: product(pi, '2'), spell: ['r/s'] },
  { dimension: 'angular-speed', symbol: 'rad/s', factor: '1' },
  { dimension: 'torque', symbol: 'N·m', factor: '1', spell: ['Nm'], prefixes: 'm k' },
  { dimension: 'torque', symbol: 'lbf·ft', factor: product(poundForce, foot), spell: ['lb·ft'] },
  { dimension: 'torque', symbol: 'lbf·in', factor: product(poundForce, inch), spell: ['lb·in'] },
  { dimension: 'force', symbol: 'N', factor: '1', prefixes: 'm k M' },
  { dimension: 'force', symbol: 'lbf', factor: poundForce },
  { dimension: 'force-per-length', symbol: 'N/m', factor: '1', prefixes: 'k M' },
  { dimension: 'force-per-length', symbol: 'N/cm', factor: '100' },
  { dimension: 'force-per-length', symbol: 'N/mm', factor: '1000', prefixes: 'k' },
  { dimension: 'force-per-length', symbol: 'lbf/in', factor: `${poundForce}/${inch}` },
  { dimension: 'force-per-length', symbol: 'lbf/ft', factor: `${poundForce}/${foot}` },
  { dimension: 'temperature', symbol: 'K', factor: '1' },
  { dimension: 'temperature', symbol: '°C', factor: '1', zero: '273.15', spell: ['degC', 'deg·C'] },
  { dimension: 'temperature', symbol: '°F', factor: '5/9', zero: '459.67*5/9', spell: ['degF', 'deg·F'] },
  { dimension: 'frequency', symbol: 'Hz', factor: '1', prefixes: 'k M' },
  { dimension: 'flow', symbol: 'm³/s', factor: '1' },
  { dimension: 'flow', symbol: 'm³/h', factor: '1/3600' },
  { dimension: 'flow', symbol: 'L/s', factor: '0.001', spell: ['l/s'] },
  { dimension: 'flow', symbol: 'L/min', factor: '0.001/60', spell: ['l/min'] },
  { dimension: 'flow', symbol: 'gal/min', factor: `${gallon}/60`, spell: ['gpm'] },
  { dimension: 'speed', symbol: 'm/s', factor: '1', prefixes: 'm' },
  { dimension: 'speed', symbol: 'm/min', factor: '1/60' },
  { dimension: 'speed', symbol: 'km/h', factor: '1/3.6' },
  { dimension: 'speed', symbol: 'ft/s', factor: foot },
  { dimension: 'speed', symbol: 'ft/min', factor: `${foot}/60` },
  { dimension: 'number', symbol: '%', factor: '0.01' }
]
