import type { Condition, Effect, Need, Rung } from './condition.js'
import {
  isPresent,
  LOCKED,
  type Model,
  must,
  OFF,
  ON,
  type PackedLedger,
  pointPresent,
  restraintPresent,
  sourcePresent
} from './model.js'
import { type Derived, derive, settle } from './settle.js'
import type { State } from './state.js'

/** One need that is not met: the first rung that failed. */
export interface Unmet {
  readonly need: Need
  readonly rung: Rung
}

/** Whether a condition holds in a ledger, given what was derived from it. */
export function meets(model: Model, ledger: PackedLedger, derived: Derived, condition: Condition): boolean {
  const { layout } = model
  switch (condition.is) {
    case 'stopped':
    case 'told':
    case 'tried':
    case 'inspected':
    case 'clear':
      return ledger[layout[condition.is]] === 1
    case 'isolated':
    case 'cut':
    case 'still':
    case 'dead':
      return derived[condition.is][must(model.sourceIndex.get(condition.source))] === 1
    case 'proven': {
      const index = must(model.sourceIndex.get(condition.source))
      return derived.present[index] === 0 || ledger[layout.proofs + index] === 1
    }
    case 'locked':
      return pointAt(model, ledger, condition.point) === LOCKED
    case 'off':
      return pointAt(model, ledger, condition.point) === OFF
    case 'not-locked':
      return pointAt(model, ledger, condition.point) !== LOCKED
    case 'normal': {
      const index = must(model.pointIndex.get(condition.point))
      const normal = must(model.machine.points[index]).normal === 'off' ? OFF : ON
      return !pointPresent(model, ledger, index) || ledger[layout.points + index] === normal
    }
    case 'some-point-locked':
      return model.machine.points.some(
        (_, index) => ledger[layout.points + index] === LOCKED && pointPresent(model, ledger, index)
      )
    case 'feeds-locked':
      return feedsLocked(model, ledger, must(model.restraintIndex.get(condition.restraint)))
    case 'unrestrained':
      return unrestrained(model, ledger, must(model.pointIndex.get(condition.point)))
    case 'known':
      return ledger[layout.axes + must(model.axisIndex.get(condition.axis))] !== 0
    case 'given': {
      const index = model.permitIndex.get(condition.permit)
      return index !== undefined && ledger[layout.permits + index] === 1
    }
    case 'restraint-off': {
      const index = must(model.restraintIndex.get(condition.restraint))
      return ledger[layout.restraints + index] === 0 || !restraintPresent(model, ledger, index)
    }
    case 'touched-still':
      return model.sources.every((_, index) => ledger[layout.touched + index] === 0 || derived.still[index] === 1)
    case 'declared':
      return condition.holds
    case 'all':
      return condition.of.every((part) => meets(model, ledger, derived, part))
    case 'any':
      return condition.of.some((part) => meets(model, ledger, derived, part))
  }
}

function pointAt(model: Model, ledger: PackedLedger, point: string): number {
  return must(ledger[model.layout.points + must(model.pointIndex.get(point))])
}

/** By source index: whether the point feeds the source, directly or through others; what is absent feeds nothing. */
function fedBy(model: Model, ledger: PackedLedger, point: number): readonly boolean[] {
  const fed = model.sources.map(() => false)
  for (const index of model.settlingOrder) {
    const { at, fedBy: feeders } = must(model.sources[index])
    fed[index] =
      sourcePresent(model, ledger, index) && (at.includes(point) || feeders.some((feeder) => fed[feeder] === true))
  }
  return fed
}

/** Every present point that feeds a present source which the restraint holds is locked. */
function feedsLocked(model: Model, ledger: PackedLedger, restraint: number): boolean {
  return model.machine.points.every((_, point) => {
    if (ledger[model.layout.points + point] === LOCKED || !pointPresent(model, ledger, point)) return true
    const fed = fedBy(model, ledger, point)
    return !model.sources.some(({ heldBy }, source) => fed[source] === true && heldBy.includes(restraint))
  })
}

/** No present restraint is on that holds a present source which the point feeds, unless it needs power to come out. */
function unrestrained(model: Model, ledger: PackedLedger, point: number): boolean {
  const fed = fedBy(model, ledger, point)
  return model.sources.every(({ heldBy }, source) => {
    if (fed[source] !== true) return true
    return heldBy.every(
      (restraint) =>
        ledger[model.layout.restraints + restraint] === 0 ||
        must(model.machine.restraints[restraint]).needsPower !== null ||
        !restraintPresent(model, ledger, restraint)
    )
  })
}

/** A step all of whose things are absent on this generation does nothing. */
export function doesNothing(model: Model, ledger: PackedLedger, state: State): boolean {
  return state.things.length > 0 && !state.things.some((thing) => isPresent(model, ledger, thing))
}

/** Whether the state is passed without asking: its things are absent, or what it would identify is known. */
export function passedBy(model: Model, ledger: PackedLedger, state: State): boolean {
  switch (state.kind) {
    case 'branch':
    case 'timer':
    case 'back':
      return true
    case 'identify':
      return ledger[model.layout.axes + must(model.axisIndex.get(state.axis))] !== 0
    default:
      return doesNothing(model, ledger, state)
  }
}

/**
 * Does a step: for each turn looks at all needs, lets all effects take place, then settles.
 * Effects apply whether or not the needs are met; what is unmet is handed to `onUnmet`.
 * `value`: for identify, the byte of the answer (index plus one).
 */
export function doStep(
  model: Model,
  before: PackedLedger,
  state: State,
  value: number,
  scratch: Derived,
  onUnmet: (unmet: Unmet) => void
): PackedLedger {
  if (state.turns.length === 0 || doesNothing(model, before, state)) return before
  const ledger = before.slice()
  for (const turn of state.turns) {
    derive(model, ledger, scratch)
    for (const need of turn.needs) {
      if (!need.present.every((thing) => isPresent(model, ledger, thing))) continue
      const rung = need.rungs.find(({ condition }) => !meets(model, ledger, scratch, condition))
      if (rung !== undefined) onUnmet({ need, rung })
    }
    for (const effect of turn.does) apply(model, ledger, effect, value)
    settle(model, ledger, scratch)
  }
  return ledger
}

function apply(model: Model, ledger: PackedLedger, effect: Effect, value: number): void {
  const { layout, machine } = model
  switch (effect.does) {
    case 'set':
      if (effect.flag === 'tried' && machine.noStartControl !== null) return
      ledger[layout[effect.flag]] = effect.to ? 1 : 0
      return
    case 'move': {
      const index = must(model.pointIndex.get(effect.point))
      if (!pointPresent(model, ledger, index)) return
      ledger[layout.points + index] = effect.to === 'locked' ? LOCKED : effect.to === 'off' ? OFF : ON
      return
    }
    case 'put': {
      const index = must(model.restraintIndex.get(effect.restraint))
      if (restraintPresent(model, ledger, index)) ledger[layout.restraints + index] = effect.to === 'on' ? 1 : 0
      return
    }
    case 'let-out': {
      const index = must(model.sourceIndex.get(effect.source))
      if (must(machine.sources[index]).store === 'can-be-let-out') ledger[layout.stores + index] = 0
      return
    }
    case 'verify': {
      const index = must(model.sourceIndex.get(effect.source))
      if (sourcePresent(model, ledger, index)) ledger[layout.proofs + index] = 1
      return
    }
    case 'unverify': {
      if (!restraintPresent(model, ledger, must(model.restraintIndex.get(effect.freedBy)))) return
      ledger[layout.proofs + must(model.sourceIndex.get(effect.source))] = 0
      return
    }
    case 'touch': {
      const handling = effect.handling
      if (handling !== null && !restraintPresent(model, ledger, must(model.restraintIndex.get(handling)))) return
      for (const source of effect.sources) {
        const index = must(model.sourceIndex.get(source))
        if (sourcePresent(model, ledger, index)) ledger[layout.touched + index] = 1
      }
      return
    }
    case 'untouch':
      ledger.fill(0, layout.touched, layout.touched + machine.sources.length)
      return
    case 'permit': {
      const index = model.permitIndex.get(effect.permit)
      if (index !== undefined) ledger[layout.permits + index] = 1
      return
    }
    case 'end-permits':
      ledger.fill(0, layout.permits, layout.permits + model.permitIndex.size)
      return
    case 'rewind-unfed':
      machine.sources.forEach((source, index) => {
        if (source.unfed === null) return
        if (source.store !== 'none') ledger[layout.stores + index] = 1
        ledger[layout.proofs + index] = 0
      })
      return
    case 'know':
      ledger[layout.axes + must(model.axisIndex.get(effect.axis))] = value
      return
  }
}
