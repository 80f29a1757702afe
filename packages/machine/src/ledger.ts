import type { AxisId, AxisValueId, PointId, RestraintId, SourceId } from '@lockwright/language'
import type { PermitId } from './ids.js'
import type { Machine } from './machine.js'
import { LOCKED, type Model, modelOf, must, OFF, type PackedLedger } from './model.js'
import { derive, emptyDerived } from './settle.js'
import type { Ledger, SourceStatus } from './snapshot.js'

/** The bytes as the plain words of the ledger page. */
export function unpack(model: Model, packed: PackedLedger): Ledger {
  const { machine, layout } = model
  const yes = (byte: number): boolean => packed[byte] === 1
  const table = <Id extends string, Value>(things: readonly { readonly id: Id }[], value: (index: number) => Value) =>
    Object.fromEntries(things.map(({ id }, index) => [id, value(index)])) as Record<Id, Value>
  const storing = machine.sources.filter(({ store }) => store !== 'none')
  const sourceIndex = (id: SourceId): number => must(model.sourceIndex.get(id))
  return {
    points: table<PointId, 'on' | 'off' | 'locked'>(machine.points, (index) => {
      const position = packed[layout.points + index]
      return position === LOCKED ? 'locked' : position === OFF ? 'off' : 'on'
    }),
    restraints: table<RestraintId, 'on' | 'off'>(machine.restraints, (index) =>
      yes(layout.restraints + index) ? 'on' : 'off'
    ),
    stores: Object.fromEntries(storing.map(({ id }) => [id, yes(layout.stores + sourceIndex(id)) ? 'held' : 'gone'])),
    proofs: table<SourceId, boolean>(machine.sources, (index) => yes(layout.proofs + index)),
    axes: table<AxisId, AxisValueId | 'unknown'>(machine.axes, (index) => {
      const value = must(packed[layout.axes + index])
      return value === 0 ? 'unknown' : must(must(machine.axes[index]).values[value - 1]).id
    }),
    stopped: yes(layout.stopped),
    told: yes(layout.told),
    tried: yes(layout.tried),
    inspected: yes(layout.inspected),
    clear: yes(layout.clear),
    touched: machine.sources.map(({ id }) => id).filter((_, index) => yes(layout.touched + index)),
    permits: [...model.permitIndex].filter(([, index]) => yes(layout.permits + index)).map(([id]) => id as PermitId)
  }
}

/** The words as bytes again: `pack(model, unpack(model, packed))` equals `packed`. */
export function pack(model: Model, ledger: Ledger): PackedLedger {
  const { machine, layout } = model
  const packed = new Uint8Array(layout.width)
  machine.points.forEach(({ id }, index) => {
    const position = ledger.points[id]
    packed[layout.points + index] = position === 'locked' ? LOCKED : position === 'off' ? OFF : 0
  })
  machine.restraints.forEach(({ id }, index) => {
    packed[layout.restraints + index] = ledger.restraints[id] === 'on' ? 1 : 0
  })
  machine.sources.forEach(({ id }, index) => {
    packed[layout.stores + index] = ledger.stores[id] === 'held' ? 1 : 0
    packed[layout.proofs + index] = ledger.proofs[id] === true ? 1 : 0
    packed[layout.touched + index] = ledger.touched.includes(id) ? 1 : 0
  })
  machine.axes.forEach(({ id, values }, index) => {
    packed[layout.axes + index] = values.findIndex((value) => value.id === ledger.axes[id]) + 1
  })
  for (const flag of ['stopped', 'told', 'tried', 'inspected', 'clear'] as const) {
    packed[layout[flag]] = ledger[flag] ? 1 : 0
  }
  for (const [id, index] of model.permitIndex) {
    packed[layout.permits + index] = ledger.permits.includes(id as PermitId) ? 1 : 0
  }
  return packed
}

/** What follows from a ledger, source by source, in the order of the declarations. */
export function statuses(machine: Machine, ledger: Ledger): readonly SourceStatus[] {
  const model = modelOf(machine)
  const packed = pack(model, ledger)
  const derived = emptyDerived(model)
  derive(model, packed, derived)
  return machine.sources.map(({ id, store }, index) => ({
    source: id,
    present: derived.present[index] === 1,
    isolated: derived.isolated[index] === 1,
    restrained: derived.restrained[index] === 1,
    still: derived.still[index] === 1,
    dead: derived.dead[index] === 1,
    proven: packed[model.layout.proofs + index] === 1,
    store: store === 'none' ? 'none' : packed[model.layout.stores + index] === 1 ? 'held' : 'gone'
  }))
}
