import type { Machine, State } from '@lockwright/machine'
import { type Ledger, settled, World } from './naive-ledger.js'

/** The ledger once the step was done; null where all its things are absent. */
export function done(
  machine: Machine,
  state: State,
  before: Ledger,
  asked: ReadonlySet<string>,
  failures: Set<string>
): Ledger | null {
  const here = new World(machine, before)
  const electrical = machine.order === 'electrical'
  const fail = (obligation: string): void => {
    failures.add(`${obligation} ${state.id}`)
  }
  const after = structuredClone(before)
  const openUp = (touched: readonly string[]): void => {
    after.touched.push(...touched)
    after.inspected = false
    after.clear = false
  }
  const lift = (): void => {
    for (const source of machine.sources.filter((one) => one.unfed !== null)) {
      if (source.store !== 'none') after.stores[source.id] = 'held'
      after.proofs[source.id] = false
    }
  }

  switch (state.kind) {
    case 'notify':
      after.told = true
      break
    case 'operate':
      if (!before.inspected || !before.clear) fail('operate-closed')
      after.stopped = false
      lift()
      break
    case 'shutdown':
      after.stopped = true
      break
    case 'isolate':
    case 'lock': {
      const points = state.points.filter((id) => here.pointPresent(id))
      if (points.length === 0) return null
      if (!before.told || !before.stopped) fail('control-order')
      if (state.kind === 'isolate' && points.some((id) => before.points[id] === 'locked')) fail('device-state')
      for (const id of points) after.points[id] = state.kind === 'lock' ? 'locked' : 'off'
      if (machine.noStartControl === null) after.tried = false
      if (state.kind === 'lock') after.permits = []
      break
    }
    case 'relieve': {
      const sources = state.sources.filter((id) => here.sourcePresent(id))
      if (sources.length === 0) return null
      let ledger = before
      for (const id of sources) {
        const now = new World(machine, ledger)
        if (!(electrical ? now.cut(id) : now.isolated(id))) fail('relieve-isolated')
        const next = structuredClone(ledger)
        next.stores[id] = 'gone'
        ledger = settled(machine, next)
      }
      return ledger
    }
    case 'restrain': {
      const restraints = here.restraintsPresent(state.restraints)
      if (restraints.length === 0) return null
      if (!before.stopped) fail('control-order')
      for (const restraint of restraints) {
        const held = restraint.holds.filter((id) => here.sourcePresent(id))
        const feeds = held.flatMap((id) => here.pointsFeeding(id))
        if (feeds.some((id) => before.points[id] !== 'locked')) fail('restrain-locked')
        const metal = restraint.kind === 'earth' || restraint.kind === 'short'
        if (metal && held.some((id) => before.proofs[id] !== true)) fail('ground-after-proof')
        after.restraints[restraint.id] = 'on'
        openUp(held)
      }
      break
    }
    case 'tryout':
      if (!before.clear) fail('tryout-clear')
      if (!machine.points.some(({ id }) => here.pointPresent(id) && before.points[id] === 'locked'))
        fail('tryout-clear')
      after.tried = true
      break
    case 'prove': {
      const sources = state.sources.filter((id) => here.sourcePresent(id))
      if (sources.length === 0) return null
      if (sources.some((id) => !here.still(id))) fail('void-proof')
      for (const id of sources) after.proofs[id] = true
      openUp(sources)
      break
    }
    case 'work': {
      const left = new Map<string, string[]>()
      for (const id of state.leaves) left.set(id, [...state.permits])
      for (const { source, permits } of machine.leftOn) left.set(source, [...(left.get(source) ?? []), ...permits])
      const touched = machine.sources.filter(({ id }) => here.sourcePresent(id) && !left.has(id)).map(({ id }) => id)
      for (const id of touched) {
        if (!here.isolated(id)) fail('work-isolated')
        else if (!here.still(id)) fail('work-released')
        else if (!here.dead(id)) fail('rebuild-restrained')
        else if (before.proofs[id] !== true) fail('work-proven')
      }
      if (!before.tried) fail('tryout-done')
      for (const [id, permits] of left) {
        if (here.sourcePresent(id) && permits.some((permit) => !before.permits.includes(permit))) fail('left-on')
      }
      openUp(touched)
      after.told = false
      break
    }
    case 'live':
    case 'measure': {
      if (state.kind === 'measure' && state.near.length === 0) return before
      const named: readonly string[] = state.near.filter((id) => here.sourcePresent(id))
      if (named.length === 0) return null
      const near = machine.sources
        .map(({ id }) => id)
        .filter((id) => here.sourcePresent(id) && here.feeders(id).some((feeder) => named.includes(feeder)))
      const harmless = state.kind === 'measure' && near.every((id) => here.dead(id) && before.proofs[id] === true)
      if (!harmless && !livePermitted(machine, state, here, near)) fail('live-permitted')
      openUp(near)
      after.told = false
      break
    }
    case 'inspect':
      after.inspected = true
      after.touched = []
      if (electrical) after.told = false
      break
    case 'clear':
      after.clear = true
      break
    case 'remove': {
      const restraints = here.restraintsPresent(state.restraints)
      if (restraints.length === 0) return null
      for (const restraint of restraints) {
        if (!before.clear && !['earth', 'short', 'cover'].includes(restraint.kind)) fail('remove-clear')
        after.restraints[restraint.id] = 'off'
        const held = restraint.holds.filter((id) => here.sourcePresent(id))
        for (const id of held) if (here.source(id).rebuilds) after.proofs[id] = false
        openUp(held)
      }
      break
    }
    case 'unlock':
    case 'energize': {
      const points = state.points.filter((id) => here.pointPresent(id))
      if (points.length === 0) return null
      const unlocking = state.kind === 'unlock'
      if (points.some((id) => before.points[id] !== (unlocking ? 'locked' : 'off'))) fail('device-state')
      if (!before.inspected) fail('inspected-before-energy')
      if (!before.clear) fail('clear-before-energy')
      if ((!unlocking || electrical) && !before.told) fail('told-before-start')
      if (points.some((id) => here.restrainedBehind(id))) fail('restraints-off')
      for (const id of points) after.points[id] = unlocking ? 'off' : 'on'
      after.permits = []
      if (unlocking) {
        if (electrical) after.clear = false
        else after.told = false
        if (machine.noStartControl === null) after.tried = false
      } else {
        after.stopped = false
        lift()
      }
      break
    }
    case 'signoff':
      if (asked.has(state.permit)) after.permits.push(state.permit)
      break
    case 'finish': {
      const astray = machine.points.some(({ id, normal }) => here.pointPresent(id) && before.points[id] !== normal)
      const held = machine.restraints.some(
        ({ id }) => here.restraintsPresent([id]).length > 0 && before.restraints[id] === 'on'
      )
      if (astray || held || !before.inspected || !before.clear) fail('all-returned')
      break
    }
    case 'stop':
      if (!before.inspected && before.touched.some((id) => !here.still(id))) fail('stop-safe')
      break
    default:
      return lookedOnly(state, here) ? before : null
  }
  return settled(machine, after)
}

/** Steps that leave the ledger alone: false where everything that they look at is absent. */
function lookedOnly(state: State, here: World): boolean {
  if (state.kind === 'lamp') return state.sources.some((id) => here.sourcePresent(id))
  if (state.kind === 'look') return state.near.length === 0 || state.near.some((id) => here.sourcePresent(id))
  return true
}

function livePermitted(
  machine: Machine,
  state: Extract<State, { kind: 'live' | 'measure' }>,
  here: World,
  near: readonly string[]
): boolean {
  const others = machine.sources.map(({ id }) => id).filter((id) => here.sourcePresent(id) && !near.includes(id))
  const apart = (id: string): boolean => state.apart.some((named) => named === id)
  const electrical = near.map((id) => here.source(id)).filter((source) => source.electricalWork)
  const role = machine.roles.find(({ id }) => id === state.role)
  const gloves = state.wear.flatMap((id) => machine.items.find((item) => item.id === id)?.glove ?? [])
  // 29 CFR 1910.137, greatest use voltages; this file's procedures hold nothing above 1000 V.
  const fits = (glove: string, volts: number): boolean => volts <= (glove === '00' ? 500 : 1000)
  return (
    others.every((id) => (here.dead(id) && here.ledger.proofs[id] === true) || apart(id)) &&
    state.apart
      .filter((id) => here.sourcePresent(id))
      .every((id) => !near.some((fed) => here.feeders(fed).includes(id))) &&
    state.why !== null &&
    state.permits.length > 0 &&
    state.permits.every((permit) => here.ledger.permits.includes(permit)) &&
    (electrical.length === 0 ||
      (role?.electrical === true &&
        gloves.length > 0 &&
        electrical.every((source) =>
          gloves.every((glove) => fits(glove, source.quantities['voltage']?.interval.high ?? 0))
        )))
  )
}
