import type { Dimension, EnergyKind } from '@lockwright/energy'

/** A parameter, the range it is drawn from (SI), and what each result does as it grows. */
export interface Drawn {
  readonly dimension: Dimension
  readonly from: number
  readonly to: number
  readonly reference?: 'gauge' | 'absolute'
}

export interface Case {
  readonly name: string
  readonly kind: EnergyKind
  readonly draw: Readonly<Record<string, Drawn>>
  /** By the id of the result: for each parameter, `+`, `-`, `0` or `?` where it may do both. In the order of `draw`. */
  readonly expected: Readonly<Record<string, string>>
}

const gauge = { dimension: 'pressure', reference: 'gauge' } as const
/** One source of each kind, with what its results do; the signs are written down from the physics, not from the code. */
export const cases: readonly Case[] = [
  {
    name: 'capacitor',
    kind: 'capacitor',
    draw: {
      capacitance: { dimension: 'capacitance', from: 1e-6, to: 0.1 },
      voltage: { dimension: 'voltage', from: 60, to: 2000 },
      bleed: { dimension: 'resistance', from: 100, to: 1e6 },
      'safe-below': { dimension: 'voltage', from: 25, to: 55 }
    },
    expected: {
      'capacitor-energy': '++00',
      'capacitor-time': '+++-',
      'capacitor-charge': '++00',
      'capacitor-energy-at-safe-level': '+00+'
    }
  },
  {
    name: 'bank',
    kind: 'capacitor',
    draw: {
      'element-capacitance': { dimension: 'capacitance', from: 1e-6, to: 0.1 },
      voltage: { dimension: 'voltage', from: 60, to: 2000 },
      balancing: { dimension: 'resistance', from: 100, to: 1e6 },
      series: { dimension: 'number', from: 1, to: 6 },
      parallel: { dimension: 'number', from: 1, to: 6 },
      'safe-below': { dimension: 'voltage', from: 25, to: 55 }
    },
    expected: { 'bank-energy': '++0-+0', 'bank-time': '+++0+-', 'bank-open-resistor': '0+0-00' }
  },
  {
    name: 'magnet',
    kind: 'magnet',
    draw: {
      inductance: { dimension: 'inductance', from: 1e-3, to: 10 },
      current: { dimension: 'current', from: 2, to: 500 },
      resistance: { dimension: 'resistance', from: 0.01, to: 100 },
      'safe-below': { dimension: 'current', from: 0.1, to: 1.5 }
    },
    expected: { 'magnet-energy': '++00', 'magnet-time': '++--' }
  },
  {
    name: 'magnet to a safe energy',
    kind: 'magnet',
    draw: {
      inductance: { dimension: 'inductance', from: 1e-3, to: 10 },
      current: { dimension: 'current', from: 2, to: 500 },
      resistance: { dimension: 'resistance', from: 0.01, to: 100 },
      'safe-below': { dimension: 'energy', from: 1e-5, to: 1e-3 }
    },
    expected: { 'magnet-time': '++--' }
  },
  {
    name: 'rotating',
    kind: 'rotating',
    draw: {
      inertia: { dimension: 'inertia', from: 0.01, to: 500 },
      speed: { dimension: 'angular-speed', from: 10, to: 400 },
      'friction-torque': { dimension: 'torque', from: 0.1, to: 50 },
      'safe-below': { dimension: 'angular-speed', from: 0, to: 8 }
    },
    expected: {
      'rotating-energy': '++00',
      'friction-time': '++--',
      'coast-revolutions': '++-0'
    }
  },
  {
    name: 'rotor with a measured coast-down',
    kind: 'rotating',
    draw: {
      inertia: { dimension: 'inertia', from: 0.01, to: 500 },
      speed: { dimension: 'angular-speed', from: 10, to: 400 },
      'coast-down': { dimension: 'time', from: 5, to: 900 }
    },
    expected: { 'coast-down': '00+', 'friction-from-coast-down': '++-' }
  },
  {
    name: 'gravity',
    kind: 'gravity',
    draw: { mass: { dimension: 'mass', from: 1, to: 1e5 }, height: { dimension: 'length', from: 0.01, to: 50 } },
    expected: { 'gravity-energy': '++' }
  },
  {
    name: 'spring',
    kind: 'spring',
    draw: {
      rate: { dimension: 'force-per-length', from: 100, to: 1e6 },
      deflection: { dimension: 'length', from: 0.01, to: 1 },
      preload: { dimension: 'force', from: 0, to: 1000 }
    },
    expected: { 'spring-energy': '++0', 'spring-release': '++-', 'spring-preload': '-0+' }
  },
  {
    name: 'spring with its preload as a length',
    kind: 'spring',
    draw: {
      rate: { dimension: 'force-per-length', from: 100, to: 1e6 },
      deflection: { dimension: 'length', from: 0.1, to: 1 },
      preload: { dimension: 'length', from: 0, to: 0.2 }
    },
    expected: { 'spring-release': '++-', 'spring-preload': '+0+' }
  },
  {
    name: 'gas',
    kind: 'gas',
    draw: {
      pressure: { ...gauge, from: 0.3e5, to: 300e5 },
      volume: { dimension: 'volume', from: 1e-3, to: 10 },
      'bleed-bore': { dimension: 'length', from: 1e-3, to: 0.05 },
      temperature: { dimension: 'temperature', from: 260, to: 330 },
      'discharge-coefficient': { dimension: 'number', from: 0.5, to: 1 },
      'safe-below': { ...gauge, from: 0, to: 0.2e5 }
    },
    expected: {
      'gas-isentropic': '++0000',
      'gas-brode': '++0000',
      'gas-isothermal': '++0000',
      'gas-availability': '++0000',
      'gas-pcc-energy': '++0000',
      'gas-pcc-tnt': '++0000',
      'gas-pcc-distance': '++0000',
      'gas-venting-isothermal': '++----',
      'gas-venting-adiabatic': '++----'
    }
  },
  {
    name: 'accumulator',
    kind: 'liquid',
    draw: {
      pressure: { ...gauge, from: 20e5, to: 350e5 },
      precharge: { ...gauge, from: 5e5, to: 200e5 },
      'gas-volume': { dimension: 'volume', from: 1e-3, to: 0.1 }
    },
    expected: {
      'accumulator-oil-energy': '+?+',
      'accumulator-oil-energy-fast': '+?+',
      'accumulator-oil': '+-+',
      'accumulator-precharge-energy': '0++'
    }
  },
  {
    name: 'squeezed liquid',
    kind: 'liquid',
    draw: {
      pressure: { ...gauge, from: 0, to: 400e5 },
      volume: { dimension: 'volume', from: 1e-3, to: 10 },
      'bulk-modulus': { dimension: 'pressure', from: 1e9, to: 2.5e9 }
    },
    expected: { 'liquid-compression-energy': '++-' }
  },
  {
    name: 'column',
    kind: 'liquid',
    draw: {
      pressure: { ...gauge, from: 0.3e5, to: 10e5 },
      volume: { dimension: 'volume', from: 1e-3, to: 10 },
      'column-height': { dimension: 'length', from: 1, to: 100 },
      'bleed-bore': { dimension: 'length', from: 2e-3, to: 0.1 },
      'discharge-coefficient': { dimension: 'number', from: 0.5, to: 1 },
      'safe-below': { ...gauge, from: 0, to: 0.2e5 }
    },
    expected: { 'liquid-column-energy': '++0000', 'liquid-column-time': '++----' }
  },
  {
    name: 'thermal',
    kind: 'thermal',
    draw: {
      temperature: { dimension: 'temperature', from: 330, to: 900 },
      ambient: { dimension: 'temperature', from: 270, to: 310 },
      'time-constant': { dimension: 'time', from: 10, to: 1e5 },
      'safe-below': { dimension: 'temperature', from: 314, to: 328 }
    },
    expected: { 'cooling-time': '+++-' }
  },
  {
    name: 'battery',
    kind: 'battery',
    draw: {
      voltage: { dimension: 'voltage', from: 6, to: 800 },
      capacity: { dimension: 'charge', from: 1e3, to: 1e6 }
    },
    expected: { 'battery-energy': '++' }
  }
]
