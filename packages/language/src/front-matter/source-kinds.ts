import { type Dimension, parseQuantity, type Quantity } from '@lockwright/energy'
import type { ParameterName, SourceKind } from '../front-matter.js'

/** What a kind of energy source takes in the front matter, and what it can do. */
export interface SourceKindSpecification {
  readonly required: readonly string[]
  readonly optional: readonly string[]
  /** `declared`: as `stores` and `relievable` say. */
  readonly stores: boolean | 'declared'
  readonly relievable: boolean | 'declared'
  readonly safeBelow: { readonly dimensions: readonly Dimension[]; readonly standard?: string }
}

const volts = { dimensions: ['voltage'], standard: '50 V' } as const
const bars = { dimensions: ['pressure'], standard: '0.1 bar' } as const

/**
 * The kinds of source, as the language lists them. Defaults of `safe-below` are the language's own: 50 V after
 * 29 CFR 1910.303(g)(2)(i); the others are common practice, no source.
 */
export const sourceKinds: Readonly<Record<SourceKind, SourceKindSpecification>> = {
  // `phases` or `conductors` is asked for besides.
  electrical: {
    required: ['voltage'],
    optional: ['phases', 'fault-current'],
    stores: false,
    relievable: false,
    safeBelow: volts
  },
  capacitor: {
    required: ['capacitance', 'voltage', 'conductors'],
    optional: ['bleed', 'label-wait'],
    stores: true,
    relievable: true,
    safeBelow: volts
  },
  battery: {
    required: ['voltage', 'conductors'],
    optional: ['capacity'],
    stores: true,
    relievable: false,
    safeBelow: volts
  },
  magnet: {
    required: ['inductance', 'current', 'resistance'],
    optional: [],
    stores: true,
    relievable: true,
    safeBelow: { dimensions: ['current', 'energy'] }
  },
  rotating: {
    required: ['inertia', 'speed'],
    optional: ['coast-down', 'friction-torque'],
    stores: true,
    relievable: true,
    safeBelow: { dimensions: ['angular-speed'], standard: '0 rpm' }
  },
  gravity: {
    required: ['mass', 'height'],
    optional: [],
    stores: true,
    relievable: true,
    safeBelow: { dimensions: ['length', 'energy'] }
  },
  spring: {
    required: ['rate', 'deflection'],
    optional: ['preload'],
    stores: true,
    relievable: true,
    safeBelow: { dimensions: ['length', 'force', 'energy'] }
  },
  gas: {
    required: ['volume', 'pressure'],
    optional: ['bleed-bore', 'temperature'],
    stores: true,
    relievable: true,
    safeBelow: bars
  },
  liquid: {
    required: ['pressure'],
    optional: ['volume', 'gas-volume', 'precharge', 'bleed-bore'],
    stores: true,
    relievable: true,
    safeBelow: bars
  },
  thermal: {
    required: ['temperature'],
    optional: ['ambient', 'time-constant', 'surface', 'contact'],
    stores: true,
    relievable: true,
    safeBelow: { dimensions: ['temperature'], standard: '48 °C' }
  },
  other: {
    required: ['describe'],
    optional: ['stores', 'relievable'],
    stores: 'declared',
    relievable: 'declared',
    safeBelow: { dimensions: [] }
  }
}

export const sourceKindNames = Object.keys(sourceKinds) as readonly SourceKind[]

/** Keys that a source of any kind takes. */
export const commonSourceKeys = [
  'kind',
  'at',
  'fed-by',
  'unfed',
  'rebuilds',
  'guarded',
  'only',
  'safe-below',
  'category',
  'conductors'
] as const

/** What each quantity measures; `safe-below` depends on the kind. */
export const parameterDimensions: Readonly<Record<Exclude<ParameterName, 'safe-below'>, readonly Dimension[]>> = {
  voltage: ['voltage'],
  'fault-current': ['current'],
  capacitance: ['capacitance'],
  bleed: ['resistance'],
  'label-wait': ['time'],
  capacity: ['charge', 'energy'],
  inductance: ['inductance'],
  current: ['current'],
  resistance: ['resistance'],
  inertia: ['inertia'],
  speed: ['angular-speed'],
  'coast-down': ['time'],
  'friction-torque': ['torque'],
  mass: ['mass'],
  height: ['length'],
  rate: ['force-per-length'],
  deflection: ['length'],
  preload: ['force'],
  volume: ['volume'],
  pressure: ['pressure'],
  'bleed-bore': ['length'],
  temperature: ['temperature'],
  'gas-volume': ['volume'],
  precharge: ['pressure'],
  ambient: ['temperature'],
  'time-constant': ['time']
}

export const parameterNames = Object.keys(parameterDimensions) as readonly Exclude<ParameterName, 'safe-below'>[]

/** The level below which a source of this kind counts as safe where none is declared; its `written` tells the default. */
export function standardSafeBelow(kind: SourceKind): Quantity | undefined {
  return standards[kind]
}

const standards: Readonly<Partial<Record<SourceKind, Quantity>>> = Object.fromEntries(
  sourceKindNames.flatMap((kind) => {
    const { standard } = sourceKinds[kind].safeBelow
    if (standard === undefined) return []
    const parsed = parseQuantity(standard)
    // The texts stand above: one that cannot be read is a fault of this file.
    if (!parsed.ok) throw new Error(parsed.why)
    return [[kind, parsed.value]]
  })
)
