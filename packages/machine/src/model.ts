import type { SourceId } from '@lockwright/language'
import type { Thing } from './condition.js'
import type { StateId } from './ids.js'
import type { Machine, MachineSource, Only } from './machine.js'
import type { State } from './state.js'

/**
 * A ledger as bytes, so that hundreds of thousands of them can be kept and compared. `Layout` says
 * which byte is what; a fresh copy is made for every step, and no one changes a ledger that was handed out.
 */
export type PackedLedger = Uint8Array

/** Values of a point's byte. */
export const ON = 0
export const OFF = 1
export const LOCKED = 2

/** First byte of each part of the ledger. */
export interface Layout {
  readonly points: number
  readonly restraints: number
  /** 1: held. */
  readonly stores: number
  readonly proofs: number
  readonly touched: number
  /** 0: unknown; else the value's index plus one. */
  readonly axes: number
  readonly stopped: number
  readonly told: number
  readonly tried: number
  readonly inspected: number
  readonly clear: number
  readonly permits: number
  readonly width: number
}

/** `only` as bytes: the axis's byte, and for each value of that byte whether the thing exists. */
type Presence = readonly { readonly byte: number; readonly allowed: readonly boolean[] }[]

export interface SourceModel {
  readonly source: MachineSource
  /** Indices of points, sources and restraints. */
  readonly at: readonly number[]
  readonly fedBy: readonly number[]
  readonly heldBy: readonly number[]
  readonly presence: Presence
}

/** A machine made ready for stepping: names are indices, and what follows from the declarations is worked out once. */
export interface Model {
  readonly machine: Machine
  readonly layout: Layout
  readonly sources: readonly SourceModel[]
  /** Feeders before what they feed. */
  readonly settlingOrder: readonly number[]
  readonly pointPresence: readonly Presence[]
  readonly restraintPresence: readonly Presence[]
  /** For each point, the sources that it feeds, directly or through others. */
  readonly fedByPoint: readonly (readonly number[])[]
  readonly stateIndex: ReadonlyMap<StateId, number>
  readonly pointIndex: ReadonlyMap<string, number>
  readonly restraintIndex: ReadonlyMap<string, number>
  readonly sourceIndex: ReadonlyMap<string, number>
  readonly axisIndex: ReadonlyMap<string, number>
  readonly permitIndex: ReadonlyMap<string, number>
}

function indexOf<Id extends string>(things: readonly { readonly id: Id }[]): Map<Id, number> {
  return new Map(things.map((thing, index) => [thing.id, index]))
}

/** Permits that some step asks for; a sign-off that nothing asks for is no part of the ledger. */
function permitsAsked(machine: Machine): string[] {
  const asked = new Set<string>(machine.leftOn.flatMap((left) => left.permits))
  for (const state of machine.states) {
    if (state.kind === 'live' || state.kind === 'measure' || state.kind === 'work') {
      for (const permit of state.permits) asked.add(permit)
    }
  }
  return [...asked].sort()
}

/** Feeders first. The language refuses rings, so this always ends with every source in the list. */
function orderByFeeding(fedBy: readonly (readonly number[])[]): number[] {
  const order: number[] = []
  const done = new Set<number>()
  const visit = (source: number): void => {
    if (done.has(source)) return
    done.add(source)
    for (const feeder of fedBy[source] ?? []) visit(feeder)
    order.push(source)
  }
  fedBy.forEach((_, source) => {
    visit(source)
  })
  return order
}

const models = new WeakMap<Machine, Model>()

/** The model of a machine, worked out at the first call and kept for as long as the machine lives. */
export function modelOf(machine: Machine): Model {
  const known = models.get(machine)
  if (known !== undefined) return known
  const model = buildModel(machine)
  models.set(machine, model)
  return model
}

function buildModel(machine: Machine): Model {
  const pointIndex = indexOf(machine.points)
  const restraintIndex = indexOf(machine.restraints)
  const sourceIndex = indexOf(machine.sources)
  const axisIndex = indexOf(machine.axes)
  const permits = permitsAsked(machine)

  const points = 0
  const restraints = points + machine.points.length
  const stores = restraints + machine.restraints.length
  const proofs = stores + machine.sources.length
  const touched = proofs + machine.sources.length
  const axes = touched + machine.sources.length
  const stopped = axes + machine.axes.length
  const layout: Layout = {
    points,
    restraints,
    stores,
    proofs,
    touched,
    axes,
    stopped,
    told: stopped + 1,
    tried: stopped + 2,
    inspected: stopped + 3,
    clear: stopped + 4,
    permits: stopped + 5,
    width: stopped + 5 + permits.length
  }

  const presenceOf = (only: Only): Presence =>
    only.map(({ axis, values }) => {
      const index = must(axisIndex.get(axis))
      const all = machine.axes[index]?.values ?? []
      return { byte: axes + index, allowed: [true, ...all.map((value) => values.includes(value.id))] }
    })

  const holders = (source: SourceId): number[] =>
    machine.restraints.flatMap((restraint, index) => (restraint.holds.includes(source) ? [index] : []))
  const sources = machine.sources.map(
    (source): SourceModel => ({
      source,
      at: source.at.map((point) => must(pointIndex.get(point))),
      fedBy: source.fedBy.map((feeder) => must(sourceIndex.get(feeder))),
      heldBy: holders(source.id),
      presence: presenceOf(source.only)
    })
  )
  const settlingOrder = orderByFeeding(sources.map((source) => source.fedBy))

  const feedsThrough: Set<number>[] = sources.map((source) => new Set(source.at))
  for (const index of settlingOrder) {
    for (const feeder of sources[index]?.fedBy ?? []) {
      for (const point of feedsThrough[feeder] ?? []) feedsThrough[index]?.add(point)
    }
  }

  return {
    machine,
    layout,
    sources,
    settlingOrder,
    pointPresence: machine.points.map((point) => presenceOf(point.only)),
    restraintPresence: machine.restraints.map((restraint) => presenceOf(restraint.only)),
    fedByPoint: machine.points.map((_, point) =>
      sources.flatMap((_source, index) => (feedsThrough[index]?.has(point) ? [index] : []))
    ),
    stateIndex: new Map(machine.states.map((state, index) => [state.id, index])),
    pointIndex,
    restraintIndex,
    sourceIndex,
    axisIndex,
    permitIndex: new Map(permits.map((permit, index) => [permit, index]))
  }
}

/** For look-ups that the language or the loader already made sure of: a miss is a bug of ours. */
export function must<Value>(value: Value | undefined): Value {
  if (value === undefined) throw new Error('a name that was resolved before is not in the machine')
  return value
}

export function stateOf(machine: Machine, id: StateId): State {
  return must(machine.states[must(modelOf(machine).stateIndex.get(id))])
}

function holds(presence: Presence, ledger: PackedLedger): boolean {
  for (const { byte, allowed } of presence) {
    if (allowed[ledger[byte] as number] !== true) return false
  }
  return true
}

export function sourcePresent(model: Model, ledger: PackedLedger, index: number): boolean {
  return holds(must(model.sources[index]).presence, ledger)
}

export function pointPresent(model: Model, ledger: PackedLedger, index: number): boolean {
  return holds(must(model.pointPresence[index]), ledger)
}

export function restraintPresent(model: Model, ledger: PackedLedger, index: number): boolean {
  return holds(must(model.restraintPresence[index]), ledger)
}

/** Whether the thing exists, as far as the generation is known. */
export function isPresent(model: Model, ledger: PackedLedger, thing: Thing): boolean {
  switch (thing.kind) {
    case 'source':
      return sourcePresent(model, ledger, must(model.sourceIndex.get(thing.id)))
    case 'point':
      return pointPresent(model, ledger, must(model.pointIndex.get(thing.id)))
    case 'restraint':
      return restraintPresent(model, ledger, must(model.restraintIndex.get(thing.id)))
  }
}

/** The ledger before the first step. */
export function firstLedger(model: Model): PackedLedger {
  const { machine, layout } = model
  const ledger = new Uint8Array(layout.width)
  machine.points.forEach((point, index) => {
    ledger[layout.points + index] = point.normal === 'off' ? OFF : ON
  })
  machine.sources.forEach((source, index) => {
    ledger[layout.stores + index] = source.store === 'none' ? 0 : 1
  })
  ledger[layout.tried] = machine.noStartControl === null ? 0 : 1
  ledger[layout.inspected] = 1
  ledger[layout.clear] = 1
  return ledger
}
