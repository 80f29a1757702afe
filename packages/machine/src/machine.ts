import type { Quantity } from '@lockwright/energy'
import type {
  Axis,
  AxisId,
  AxisValueId,
  ItemId,
  PointId,
  RestraintId,
  RestraintKind,
  Role,
  SectionId,
  SourceId,
  SourceKind
} from '@lockwright/language'
import type { PermitId, StateId } from './ids.js'
import type { Span, State } from './state.js'

export type Only = readonly { readonly axis: AxisId; readonly values: readonly AxisValueId[] }[]

export interface MachineSource {
  readonly id: SourceId
  readonly span: Span
  readonly kind: SourceKind
  readonly at: readonly PointId[]
  readonly fedBy: readonly SourceId[]
  /** Why nothing feeds it; null where something does. */
  readonly unfed: string | null
  readonly rebuilds: boolean
  readonly guarded: string | null
  readonly only: Only
  /** battery: its store is held always. */
  readonly store: 'none' | 'can-be-let-out' | 'always-held'
  /** Kind electrical, capacitor or battery whose worst-case voltage is above 50 V. */
  readonly electricalWork: boolean
  readonly quantities: Readonly<Record<string, Quantity>>
  /** As declared; null where only conductors are. */
  readonly phases: number | null
  readonly conductors: readonly string[]
  readonly category: 'II' | 'III' | 'IV' | null
  readonly describe: string | null
  /** thermal: what the hot surface is made of and for how long it may be touched, as written; absent where not said. */
  readonly surface?: string
  readonly contact?: string
}

export interface MachinePoint {
  readonly id: PointId
  readonly span: Span
  readonly is: string
  readonly where: string
  readonly safe: string
  readonly normal: 'on' | 'off'
  readonly only: Only
}

export interface MachineRestraint {
  readonly id: RestraintId
  readonly span: Span
  readonly kind: RestraintKind
  readonly is: string
  readonly holds: readonly SourceId[]
  readonly needsPower: string | null
  readonly only: Only
}

export interface MachineItem {
  readonly id: ItemId
  readonly span: Span
  readonly kind: 'tool' | 'part' | 'wear'
  readonly label: string
  /** Further words to print: size, rating, class, number ... */
  readonly details: readonly string[]
  readonly measures: string | null
  readonly rated: Quantity | null
  readonly category: 'II' | 'III' | 'IV' | null
  readonly range: { readonly low: Quantity; readonly high: Quantity } | null
  readonly needsCalibration: boolean
  readonly glove: '00' | '0' | '1' | '2' | '3' | '4' | null
}

export interface MachineLeftOn {
  readonly source: SourceId
  readonly span: Span
  readonly why: string
  readonly permits: readonly PermitId[]
}

/** A compiled procedure: plain JSON, versioned; see `machine.schema.json`. */
export interface Machine {
  readonly format: 'lockwright-machine/1'
  readonly procedure: string
  readonly title: string
  readonly revision: number
  readonly language: string
  readonly equipment: { readonly tag: string; readonly name: string; readonly place: string }
  readonly scope: string
  readonly review: string
  readonly order: 'general' | 'electrical'
  /** Why there is no start control to try; null where there is one. */
  readonly noStartControl: string | null
  readonly axes: readonly MachineAxis[]
  readonly sources: readonly MachineSource[]
  readonly points: readonly MachinePoint[]
  readonly restraints: readonly MachineRestraint[]
  readonly roles: readonly MachineRole[]
  readonly items: readonly MachineItem[]
  readonly leftOn: readonly MachineLeftOn[]
  readonly waivers: readonly {
    readonly obligation: string
    readonly span: Span
    readonly why: string
    readonly by: string
  }[]
  readonly sections: readonly {
    readonly id: SectionId
    readonly level: number
    readonly title: string
    readonly span: Span
  }[]
  readonly start: StateId
  /** In the order in which the procedure is read; copies where they are done. */
  readonly states: readonly State[]
}

export type MachineAxis = Omit<Axis, 'place'> & { readonly span: Span }
export type MachineRole = Omit<Role, 'place'> & { readonly span: Span }
