import type { SourceId } from '@lockwright/language'
import type { Machine, MachineRestraint, MachineSource, Only } from '../../machine.js'
import { all, any, type Expression, grouped, where } from './expression.js'
import { type Spelling, spellingOf } from './spelling.js'

/**
 * What the declarations of a machine come to, as Promela conditions: the ledger page written out once more. Nothing
 * here reads the needs and effects that the compiler wrote into the states, nor the code that steps a machine.
 */
export interface World {
  readonly machine: Machine
  readonly names: Spelling
  readonly electrical: boolean
  readonly source: (id: string) => MachineSource
  readonly restraint: (id: string) => MachineRestraint
  /** `true` for what exists on every generation. */
  readonly present: (id: string) => Expression
  /** Feeders before what they feed. */
  readonly feedingOrder: readonly MachineSource[]
  /** The point feeds the source, directly or through others, over what is present. */
  readonly feeds: (point: string, source: SourceId) => Expression
  /** Every point that feeds the source, on some generation at least. */
  readonly pointsFeeding: (source: SourceId) => readonly string[]
}

export function worldOf(machine: Machine): World {
  const names = spellingOf(machine)
  const sources = new Map<string, MachineSource>(machine.sources.map((source) => [source.id, source]))
  const restraints = new Map<string, MachineRestraint>(machine.restraints.map((restraint) => [restraint.id, restraint]))
  const limited = new Set<string>(
    [...machine.points, ...machine.restraints, ...machine.sources]
      .filter(({ only }) => only.length > 0)
      .map(({ id }) => id)
  )
  const source = (id: string): MachineSource => found(sources, id)
  const present = (id: string): Expression => (limited.has(id) ? names.present(id) : 'true')

  const feeds = (point: string, id: SourceId): Expression => {
    const { at, fedBy } = source(id)
    const direct = at.some((own) => own === point) ? 'true' : 'false'
    return all([present(id), any([direct, ...fedBy.map((feeder) => feeds(point, feeder))])])
  }

  return {
    machine,
    names,
    electrical: machine.order === 'electrical',
    source,
    restraint: (id) => found(restraints, id),
    present,
    feedingOrder: feedersFirst(machine.sources),
    feeds,
    pointsFeeding: (id) => {
      const reached = new Set<SourceId>([id])
      for (const next of reached) for (const feeder of source(next).fedBy) reached.add(feeder)
      const points = new Set<string>([...reached].flatMap((next) => source(next).at))
      return machine.points.map((point) => point.id).filter((point) => points.has(point))
    }
  }
}

function found<Thing>(things: ReadonlyMap<string, Thing>, id: string): Thing {
  const thing = things.get(id)
  if (thing === undefined) throw new Error(`the machine declares no ${id}`)
  return thing
}

function feedersFirst(sources: readonly MachineSource[]): readonly MachineSource[] {
  const placed = new Set<string>()
  const order: MachineSource[] = []
  // Feeding has no rings, so every round places one source at least.
  while (order.length < sources.length) {
    for (const source of sources) {
      if (placed.has(source.id) || !source.fedBy.every((feeder) => placed.has(feeder))) continue
      placed.add(source.id)
      order.push(source)
    }
  }
  return order
}

/** The thing exists where each axis is unknown or has one of the values named. */
export function existsOn({ names }: World, only: Only): Expression {
  return all(
    only.map(({ axis, values }) =>
      any([
        `${names.axis(axis)} == unknown`,
        ...values.map((value) => `${names.axis(axis)} == ${names.value(axis, value)}`)
      ])
    )
  )
}

/** What follows from the ledger for one source, each as a macro in the words of the ledger page. */
export function derivedMacros(world: World, source: MachineSource): readonly string[] {
  const { names, present, machine } = world
  const { id } = source
  const word = (name: string): string => names.source(name, id)
  const feederIs = (name: string): Expression[] =>
    source.fedBy.map((feeder) => where(present(feeder), names.source(name, feeder)))
  const points = (position: string): Expression[] =>
    source.at.map((point) => where(present(point), `${names.point(point)} ${position}`))

  const restrained = any(
    machine.restraints
      .filter(({ holds }) => holds.includes(id))
      .map((restraint) => all([present(restraint.id), names.restraint(restraint.id)]))
  )
  const letOut: Expression = source.store === 'can-be-let-out' ? `!${word('held')}` : 'false'
  const harmless = source.store === 'none' ? 'true' : any([letOut, word('restrained')])
  const stays = source.rebuilds ? word('restrained') : 'true'
  const macro = (name: string, meaning: Expression): string => `#define ${word(name)} ${grouped(meaning)}`
  return [
    macro('restrained', restrained),
    macro('isolated', all([...points('== locked'), ...feederIs('dead')])),
    macro('still', all([word('isolated'), harmless])),
    macro('dead', all([word('still'), stays])),
    ...(world.electrical
      ? [
          macro('cut', all([...points('!= on'), ...feederIs('spent')])),
          macro('spent', all([word('cut'), harmless, stays]))
        ]
      : [])
  ]
}

/** The settling rule: what may be fed holds energy again, and what is not still is not proven. */
export function settling(world: World): readonly string[] {
  const { names, electrical, present } = world
  return world.feedingOrder.flatMap(({ id, store, only }) => {
    const here = present(id)
    const held = names.source('held', id)
    const proven = names.source('proven', id)
    const touched = names.source('touched', id)
    const fed = `!${names.source(electrical ? 'cut' : 'isolated', id)}`
    return [
      ...(store === 'can-be-let-out' ? [`${held} = ${all([here, any([held, fed])])};`] : []),
      `${proven} = ${all([here, proven, names.source('still', id)])};`,
      ...(only.length > 0 ? [`${touched} = ${all([here, touched])};`] : [])
    ]
  })
}
