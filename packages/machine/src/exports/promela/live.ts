import { gloveClassFits, worstCaseVolts } from '@lockwright/energy'
import type { MachineSource } from '../../machine.js'
import type { State } from '../../state.js'
import { all, any, type Expression, not, where } from './expression.js'
import type { World } from './world.js'

type LiveState = Extract<State, { kind: 'live' | 'measure' }>

interface Rest {
  /** What is under test: the sources named and all that they feed, on some generation at least. */
  readonly near: readonly string[]
  /** What has to be dead, or named apart. */
  readonly others: readonly string[]
}

/**
 * The machine divided by a test. Strict where feeding hangs on the generation: what is fed on some generations alone
 * counts as touched, and is asked to be dead all the same.
 */
export function restOfMachine(world: World, state: LiveState): Rest {
  const { sources } = world.machine
  const everyLink = closure(world, state.near, () => true)
  const sureLinks = closure(world, state.near, (feeder, fed) => existsWherever(feeder, fed))
  return {
    near: sources.map(({ id }) => id).filter((id) => everyLink.has(id)),
    others: sources.map(({ id }) => id).filter((id) => !sureLinks.has(id))
  }
}

function closure(
  world: World,
  named: readonly string[],
  counts: (feeder: MachineSource, fed: MachineSource) => boolean
): ReadonlySet<string> {
  const reached = new Set<string>(named)
  for (const source of world.feedingOrder) {
    const fed = source.fedBy.some((feeder) => reached.has(feeder) && counts(world.source(feeder), source))
    if (fed) reached.add(source.id)
  }
  return reached
}

/** The feeder exists on every generation on which what it feeds exists. */
function existsWherever(feeder: MachineSource, fed: MachineSource): boolean {
  return feeder.only.every(({ axis, values }) => {
    const own = fed.only.find((limit) => limit.axis === axis)
    return own?.values.every((value) => values.includes(value)) === true
  })
}

/** What a test with power on asks for. A measurement whose sources are all dead and proven needs none of it. */
export function liveConditions(world: World, state: LiveState): readonly Expression[] {
  const { names, present } = world
  const { near, others } = restOfMachine(world, state)
  const harmless = (id: string): Expression =>
    where(present(id), all([names.source('dead', id), names.source('proven', id)]))
  const forbidden = (id: string): Expression => not(present(id))
  const apart = new Set<string>(state.apart)
  const conditions = [
    ...others.filter((id) => !apart.has(id)).map(harmless),
    ...state.apart.filter((id) => feedsAny(world, id, near)).map(forbidden),
    ...(state.why === null || state.permits.length === 0 ? ['false'] : []),
    ...state.permits.map((permit) => names.permit(permit)),
    ...near.filter((id) => world.source(id).electricalWork && !equipped(world, state, id)).map(forbidden)
  ]
  if (state.kind === 'live') return conditions
  const nothingLive = all(near.map(harmless))
  return conditions.map((condition) => any([nothingLive, condition]))
}

function feedsAny(world: World, feeder: string, near: readonly string[]): boolean {
  const fed = closure(world, [feeder], () => true)
  return near.some((id) => fed.has(id))
}

/** A qualified person, in gloves of which every class fits the worst-case voltage. */
function equipped({ machine, source }: World, state: LiveState, id: string): boolean {
  const role = machine.roles.find((candidate) => candidate.id === state.role)
  const gloves = machine.items.filter((item) => state.wear.includes(item.id)).flatMap(({ glove }) => glove ?? [])
  if (role?.electrical !== true || gloves.length === 0) return false
  const { kind, quantities } = source(id)
  const voltage = quantities['voltage']
  if (voltage === undefined) return true
  const current = kind === 'electrical' ? (voltage.current ?? 'ac') : 'dc'
  return gloves.every((glove) => gloveClassFits(glove, worstCaseVolts(voltage), current))
}
