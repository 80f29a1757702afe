import { LOCKED, type Model, ON, type PackedLedger, pointPresent, restraintPresent, sourcePresent } from './model.js'

/** What follows from a ledger for each source, by index; 1: it holds. Absent sources count as dead and proven: they are left out. */
export interface Derived {
  readonly present: Uint8Array
  readonly isolated: Uint8Array
  /** As isolated, with points off or locked: the electrical order lets energy out before the locks are on. */
  readonly cut: Uint8Array
  readonly restrained: Uint8Array
  readonly still: Uint8Array
  readonly dead: Uint8Array
}

export function emptyDerived(model: Model): Derived {
  const size = model.sources.length
  return {
    present: new Uint8Array(size),
    isolated: new Uint8Array(size),
    cut: new Uint8Array(size),
    restrained: new Uint8Array(size),
    still: new Uint8Array(size),
    dead: new Uint8Array(size)
  }
}

/**
 * Works out isolated, cut, restrained, still and dead for every source, feeders first.
 *
 * isolated(s): every point of s is locked and every feeder is dead. restrained(s): some restraint that holds s is on.
 * still(s): isolated, and nothing stored, or let out, or restrained. dead(s): still, and restrained if s rebuilds.
 * What is absent on this generation is left out.
 */
export function derive(model: Model, ledger: PackedLedger, into: Derived): void {
  settleOrDerive(model, ledger, into, false)
}

/**
 * Settles the ledger in place after a step: what is not isolated (electrical order: not cut) may be charged again,
 * what is not still is not proven. What is absent keeps nothing, so that it makes no two ledgers differ.
 */
export function settle(model: Model, ledger: PackedLedger, into: Derived): void {
  settleOrDerive(model, ledger, into, true)
}

function settleOrDerive(model: Model, ledger: PackedLedger, into: Derived, settling: boolean): void {
  const { layout, sources, settlingOrder, machine } = model
  const electrical = machine.order === 'electrical'
  // Feeding through `cut`: a feeder that is cut, with nothing left in it, charges nothing.
  const cutDead = cutDeadScratch(sources.length)
  for (const index of settlingOrder) {
    const source = sources[index]
    if (source === undefined) continue
    const store = layout.stores + index
    const proof = layout.proofs + index
    if (!sourcePresent(model, ledger, index)) {
      into.present[index] = 0
      into.isolated[index] = into.cut[index] = into.still[index] = into.dead[index] = cutDead[index] = 1
      into.restrained[index] = 0
      if (settling) {
        ledger[store] = 0
        ledger[proof] = 0
        ledger[layout.touched + index] = 0
      }
      continue
    }
    let isolated = 1
    let cut = 1
    for (const point of source.at) {
      if (!pointPresent(model, ledger, point)) continue
      const position = ledger[layout.points + point]
      if (position !== LOCKED) isolated = 0
      if (position === ON) cut = 0
    }
    for (const feeder of source.fedBy) {
      if (into.dead[feeder] === 0) isolated = 0
      if (cutDead[feeder] === 0) cut = 0
    }
    let restrained = 0
    for (const restraint of source.heldBy) {
      if (ledger[layout.restraints + restraint] === 1 && restraintPresent(model, ledger, restraint)) restrained = 1
    }
    if (settling && (electrical ? cut : isolated) === 0 && source.source.store !== 'none') ledger[store] = 1
    const held = ledger[store] === 1
    const heldBack = !held || restrained === 1
    const still = isolated === 1 && heldBack ? 1 : 0
    const holds = source.source.rebuilds && restrained === 0 ? 0 : 1
    into.present[index] = 1
    into.isolated[index] = isolated
    into.cut[index] = cut
    into.restrained[index] = restrained
    into.still[index] = still
    into.dead[index] = still === 1 && holds === 1 ? 1 : 0
    cutDead[index] = cut === 1 && heldBack && holds === 1 ? 1 : 0
    if (settling && still === 0) ledger[proof] = 0
  }
}

let scratch = new Uint8Array(16)

/** One buffer for all calls: every entry is written before it is read, because feeders come first. */
function cutDeadScratch(size: number): Uint8Array {
  if (scratch.length < size) scratch = new Uint8Array(size * 2)
  return scratch
}
