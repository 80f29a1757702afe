import type { PointId, RestraintId } from '@lockwright/language'
import {
  isPresent,
  LOCKED,
  type Machine,
  type Model,
  ON,
  type PackedLedger,
  type StateId,
  type Thing
} from '@lockwright/machine'
import { defaultLimit, type Exploration, explore } from '@lockwright/proof'
import type { Known } from './presence.js'

/** How the equipment stands where the work is broken off, over every way that leads to the stop. */
export interface LeftAtStop {
  readonly locked: Found<PointId>
  readonly restrained: Found<RestraintId>
  /** True where, on some way, a device stands in its on position. */
  readonly canBeOn: boolean
}

/** Things that are so on every way, on some ways only, and on none. */
export interface Found<Id> {
  readonly always: readonly Id[]
  readonly sometimes: readonly Id[]
  readonly never: readonly Id[]
}

/**
 * What hangs at each stop, from the same exploration that proves the machine. A stop that no way was found to,
 * or an exploration that was cut short, counts as "on some ways": nothing is claimed of it.
 */
export function leftAtStops(machine: Machine, known: Known): ReadonlyMap<StateId, LeftAtStop> {
  const stops = machine.states.filter(({ kind }) => kind === 'stop')
  if (stops.length === 0) return new Map()
  const exploration = explore(machine, defaultLimit)
  const { model } = exploration
  const ledgers = ledgersOf(exploration, known)
  return new Map(
    stops.map(({ id }): [StateId, LeftAtStop] => [
      id,
      leftWith(model, exploration.complete ? (ledgers.get(model.stateIndex.get(id) ?? -1) ?? []) : [])
    ])
  )
}

/** By the index of its state, every ledger with which a stop is reached on the chosen generation. */
function ledgersOf(
  { model, stateOf, ledgerOf }: Exploration,
  known: Known
): ReadonlyMap<number, readonly PackedLedger[]> {
  const { axes, states } = model.machine
  const chosen = axes.flatMap(({ id, values }, index) => {
    const at = values.findIndex((each) => each.id === known.get(id))
    return at === -1 ? [] : [{ byte: model.layout.axes + index, value: at + 1 }]
  })
  const found = new Map<number, PackedLedger[]>()
  ledgerOf.forEach((ledger, configuration) => {
    const state = stateOf[configuration] ?? -1
    if (states[state]?.kind !== 'stop') return
    if (chosen.some(({ byte, value }) => ledger[byte] !== 0 && ledger[byte] !== value)) return
    const ledgers = found.get(state) ?? []
    ledgers.push(ledger)
    found.set(state, ledgers)
  })
  return found
}

function leftWith(model: Model, ledgers: readonly PackedLedger[]): LeftAtStop {
  const { layout, machine } = model
  const { points, restraints } = machine
  return {
    locked: sorted(
      points.map(({ id }) => id),
      (id) =>
        howOften(
          model,
          ledgers,
          { kind: 'point', id },
          layout.points + points.findIndex((each) => each.id === id),
          LOCKED
        )
    ),
    restrained: sorted(
      restraints.map(({ id }) => id),
      (id) =>
        howOften(
          model,
          ledgers,
          { kind: 'restraint', id },
          layout.restraints + restraints.findIndex((each) => each.id === id),
          1
        )
    ),
    canBeOn: ledgers.length === 0 || ledgers.some((ledger) => points.some((_, at) => ledger[layout.points + at] === ON))
  }
}

type HowOften = 'always' | 'sometimes' | 'never' | 'absent'

/** How often a byte of the ledger has this value, among the generations on which the thing exists. */
function howOften(model: Model, ledgers: readonly PackedLedger[], thing: Thing, byte: number, value: number): HowOften {
  if (ledgers.length === 0) return 'sometimes'
  const there = ledgers.filter((ledger) => isPresent(model, ledger, thing))
  if (there.length === 0) return 'absent'
  const times = there.filter((ledger) => ledger[byte] === value).length
  if (times === 0) return 'never'
  return times === there.length ? 'always' : 'sometimes'
}

function sorted<Id>(ids: readonly Id[], how: (id: Id) => HowOften): Found<Id> {
  const those = (wanted: HowOften): readonly Id[] => ids.filter((id) => how(id) === wanted)
  return { always: those('always'), sometimes: those('sometimes'), never: those('never') }
}
