import type { Quantity } from '@lockwright/energy'
import type { AxisId, AxisValueId, PointId, RestraintId, RoleId, SourceId, StepId } from './ids.js'
import type { Place } from './place.js'

/** The kinds of energy source of the language; each has its own parameters. */
export type SourceKind =
  | 'electrical'
  | 'capacitor'
  | 'battery'
  | 'magnet'
  | 'rotating'
  | 'gravity'
  | 'spring'
  | 'gas'
  | 'liquid'
  | 'thermal'
  | 'other'

export type RestraintKind = 'earth' | 'short' | 'block' | 'pin' | 'cover' | 'blank' | 'chain' | 'other'

/** On which generations a thing exists: for each axis named, one of these values. Empty: on all. */
export type Only = readonly { readonly axis: AxisId; readonly values: readonly AxisValueId[] }[]

/** Names of the quantities that a source may carry, spelled as in the front matter. */
export type ParameterName =
  | 'voltage'
  | 'fault-current'
  | 'capacitance'
  | 'bleed'
  | 'label-wait'
  | 'safe-below'
  | 'capacity'
  | 'inductance'
  | 'current'
  | 'resistance'
  | 'inertia'
  | 'speed'
  | 'coast-down'
  | 'friction-torque'
  | 'mass'
  | 'height'
  | 'rate'
  | 'deflection'
  | 'preload'
  | 'volume'
  | 'pressure'
  | 'bleed-bore'
  | 'temperature'
  | 'gas-volume'
  | 'precharge'
  | 'ambient'
  | 'time-constant'

export interface Source {
  readonly id: SourceId
  readonly place: Place
  readonly kind: SourceKind
  /** Devices that cut it off. */
  readonly at: readonly PointId[]
  /** Sources that can charge it again. */
  readonly fedBy: readonly SourceId[]
  /** Why nothing feeds it (a spring wound by hand). */
  readonly unfed?: string
  readonly rebuilds: boolean
  /** Behind a fixed barrier that this work does not open, and how. */
  readonly guarded?: string
  readonly only: Only
  readonly quantities: Readonly<Partial<Record<ParameterName, Quantity>>>
  readonly phases?: number
  /** Conductor names, as written; else made from `phases` (3: L1 L2 L3; 1: L N). Empty where not electrical or unknown. */
  readonly conductors: readonly string[]
  /** Overvoltage category of the circuit (II, III, IV). */
  readonly category?: 'II' | 'III' | 'IV'
  /** thermal: surface material and contact time as written. */
  readonly surface?: string
  readonly contact?: string
  /** kind other: what it is; whether it stores energy and can be relieved, as declared. */
  readonly describe?: string
  /** Whether this source stores energy (by kind, or as declared for `other`). */
  readonly stores: boolean
  /** Whether `relieve` may name it. */
  readonly relievable: boolean
}

export interface PointDeclaration {
  readonly id: PointId
  readonly place: Place
  readonly is: string
  readonly where: string
  /** The safe position in words. */
  readonly safe: string
  /** Position in service. */
  readonly normal: 'on' | 'off'
  readonly only: Only
}

export interface Restraint {
  readonly id: RestraintId
  readonly place: Place
  readonly kind: RestraintKind
  readonly is: string
  readonly holds: readonly SourceId[]
  /** Why it comes out only once power has lifted the load. */
  readonly needsPower?: string
  readonly only: Only
}

export interface Role {
  readonly id: RoleId
  readonly place: Place
  readonly name: string
  /** Qualification ids of the roster. */
  readonly holds: readonly string[]
  readonly electrical: boolean
}

export interface AxisValue {
  readonly id: AxisValueId
  readonly name: string
  /** How to tell it. */
  readonly tell: string
}

export interface Axis {
  readonly id: AxisId
  readonly place: Place
  readonly ask: string
  readonly values: readonly AxisValue[]
}

export interface LeftOn {
  readonly source: SourceId
  readonly place: Place
  readonly why: string
  /** Sign-off steps whose permit it needs. */
  readonly permits: readonly StepId[]
}

export interface Waiver {
  readonly obligation: string
  readonly place: Place
  readonly why: string
  readonly by: string
}

export interface FrontMatter {
  readonly procedure: string
  readonly title: string
  readonly revision: number
  readonly language: string
  readonly equipment: { readonly tag: string; readonly name: string; readonly place: string }
  readonly scope: string
  /** ISO 8601 duration between periodic inspections. */
  readonly review: string
  readonly order: 'general' | 'electrical'
  readonly noStartControl?: string
  readonly translates?: string
  readonly axes: readonly Axis[]
  readonly sources: readonly Source[]
  readonly points: readonly PointDeclaration[]
  readonly restraints: readonly Restraint[]
  readonly roles: readonly Role[]
  readonly leftOn: readonly LeftOn[]
  readonly waivers: readonly Waiver[]
}
