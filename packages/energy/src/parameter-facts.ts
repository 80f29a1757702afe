import type { Dimension } from './quantity.js'

export interface ParameterFacts {
  /** As it stands in formulas. */
  readonly symbol: string
  readonly dimensions: readonly Dimension[]
  readonly says: string
  /** True where the front matter of a procedure has no key for it: an input of the library and of what-if alone. */
  readonly beyondLanguage?: true
}

/** Every quantity that a formula here can use, by its name: those of the front matter, and those that go beyond it. */
export const parameterFacts = {
  voltage: { symbol: 'V', dimensions: ['voltage'], says: 'voltage' },
  'fault-current': { symbol: 'Ik', dimensions: ['current'], says: 'prospective fault current' },
  capacitance: { symbol: 'C', dimensions: ['capacitance'], says: 'capacitance' },
  bleed: { symbol: 'R', dimensions: ['resistance'], says: 'resistance across it once isolated' },
  'label-wait': { symbol: 't', dimensions: ['time'], says: 'wait on the label of the equipment' },
  'safe-below': {
    symbol: 's',
    dimensions: ['voltage', 'current', 'energy', 'angular-speed', 'length', 'force', 'pressure', 'temperature'],
    says: 'level below which it counts as safe'
  },
  capacity: { symbol: 'Q', dimensions: ['charge', 'energy'], says: 'capacity of a battery' },
  inductance: { symbol: 'L', dimensions: ['inductance'], says: 'inductance' },
  current: { symbol: 'I', dimensions: ['current'], says: 'current' },
  resistance: { symbol: 'R', dimensions: ['resistance'], says: 'resistance of the circuit' },
  inertia: { symbol: 'I', dimensions: ['inertia'], says: 'moment of inertia' },
  speed: { symbol: 'ω', dimensions: ['angular-speed'], says: 'speed of rotation' },
  'coast-down': { symbol: 't', dimensions: ['time'], says: 'measured time from full speed to standstill' },
  'friction-torque': { symbol: 'M', dimensions: ['torque'], says: 'friction torque' },
  mass: { symbol: 'm', dimensions: ['mass'], says: 'mass' },
  height: { symbol: 'h', dimensions: ['length'], says: 'height it can fall' },
  rate: { symbol: 'k', dimensions: ['force-per-length'], says: 'spring rate' },
  deflection: { symbol: 'x', dimensions: ['length'], says: 'deflection from the unloaded length' },
  preload: { symbol: 'F', dimensions: ['force', 'length'], says: 'preload that stays when it is let out to its stop' },
  volume: { symbol: 'V', dimensions: ['volume'], says: 'volume' },
  pressure: { symbol: 'p', dimensions: ['pressure'], says: 'pressure' },
  'bleed-bore': { symbol: 'd', dimensions: ['length'], says: 'bore of the hole it vents through' },
  temperature: { symbol: 'T', dimensions: ['temperature'], says: 'temperature' },
  'gas-volume': { symbol: 'V0', dimensions: ['volume'], says: 'gas volume of the empty accumulator' },
  precharge: { symbol: 'p0', dimensions: ['pressure'], says: 'precharge of the gas' },
  ambient: { symbol: 'Ta', dimensions: ['temperature'], says: 'temperature of the surroundings' },
  'time-constant': { symbol: 'τ', dimensions: ['time'], says: 'time constant of the cooling' },
  'discharge-coefficient': {
    symbol: 'Cd',
    dimensions: ['number'],
    says: 'discharge coefficient of the outlet',
    beyondLanguage: true
  },
  'heat-ratio': {
    symbol: 'γ',
    dimensions: ['number'],
    says: 'ratio of specific heats of the gas',
    beyondLanguage: true
  },
  atmosphere: { symbol: 'Pa', dimensions: ['pressure'], says: 'absolute ambient pressure', beyondLanguage: true },
  'bulk-modulus': { symbol: 'K', dimensions: ['pressure'], says: 'bulk modulus of the liquid', beyondLanguage: true },
  'column-height': { symbol: 'h', dimensions: ['length'], says: 'height of a standing column', beyondLanguage: true },
  'element-capacitance': {
    symbol: 'Ce',
    dimensions: ['capacitance'],
    says: 'capacitance of one element of a bank',
    beyondLanguage: true
  },
  series: { symbol: 'n', dimensions: ['number'], says: 'positions in series in a bank', beyondLanguage: true },
  parallel: {
    symbol: 'm',
    dimensions: ['number'],
    says: 'elements in parallel at each position',
    beyondLanguage: true
  },
  balancing: {
    symbol: 'Rb',
    dimensions: ['resistance'],
    says: 'balancing resistor across each position of a bank',
    beyondLanguage: true
  }
} as const satisfies Readonly<Record<string, ParameterFacts>>

export type EnergyParameterName = keyof typeof parameterFacts

export function isEnergyParameterName(name: string): name is EnergyParameterName {
  return Object.hasOwn(parameterFacts, name)
}
