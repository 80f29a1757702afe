import type { PointId, RestraintId, SourceId } from '@lockwright/language'
import type { Ledger, Machine, MachineRestraint, MachineSource, Only, State } from '@lockwright/machine'

/** The source as declared. */
export function sourceOf(machine: Machine, id: SourceId): MachineSource {
  const source = machine.sources.find((candidate) => candidate.id === id)
  // The compiler resolves every name, so a machine that names an undeclared source is a defect of ours.
  if (source === undefined) throw new Error(`machine ${machine.procedure} declares no source ${id}`)
  return source
}

/** The restraint as declared. */
export function restraintOf(machine: Machine, id: RestraintId): MachineRestraint {
  const restraint = machine.restraints.find((candidate) => candidate.id === id)
  if (restraint === undefined) throw new Error(`machine ${machine.procedure} declares no restraint ${id}`)
  return restraint
}

/** Whether a thing exists, as far as the ledger knows the generation. */
export function existsIn({ axes }: Ledger, only: Only): boolean {
  return only.every(({ axis, values }) => {
    const known = axes[axis]
    return known === undefined || known === 'unknown' || values.some((value) => value === known)
  })
}

/** Everything that feeds the source, over any number of links, itself first. */
export function feedersOf(machine: Machine, id: SourceId): readonly SourceId[] {
  const found = new Set<SourceId>([id])
  for (const next of found) for (const feeder of sourceOf(machine, next).fedBy) found.add(feeder)
  return [...found]
}

/** The sources named and everything that they feed, over any number of links. */
export function fedFrom(machine: Machine, ids: readonly SourceId[]): readonly SourceId[] {
  return machine.sources
    .map(({ id }) => id)
    .filter((id) => feedersOf(machine, id).some((feeder) => ids.includes(feeder)))
}

/** Every point that feeds the source: its own and those of its feeders. */
export function pointsFeeding(machine: Machine, id: SourceId): readonly PointId[] {
  return [...new Set(feedersOf(machine, id).flatMap((feeder) => sourceOf(machine, feeder).at))]
}

/** Every restraint that is declared to hold the source. */
export function restraintsHolding(machine: Machine, id: SourceId): readonly MachineRestraint[] {
  return machine.restraints.filter((restraint) => restraint.holds.includes(id))
}

/** What a step acts on: the points, sources or restraints that its directive names first. */
export function thingsOf(state: State): readonly string[] {
  switch (state.kind) {
    case 'isolate':
    case 'lock':
    case 'unlock':
    case 'energize':
      return state.points
    case 'relieve':
    case 'prove':
    case 'lamp':
      return state.sources
    case 'restrain':
    case 'remove':
      return state.restraints
    case 'live':
    case 'look':
    case 'measure':
      return state.near
    case 'work':
      return state.leaves
    case 'identify':
    case 'branch':
      return [state.axis]
    case 'gather':
    case 'notify':
    case 'operate':
    case 'shutdown':
    case 'tryout':
    case 'inspect':
    case 'clear':
    case 'notice':
    case 'finish':
    case 'signoff':
    case 'wait':
    case 'stop':
    case 'ask':
    case 'timer':
    case 'back':
      return []
  }
}

/** Lines of the steps of one kind, each once, in order; with `thing`, only those that act on it. */
export function linesOf(machine: Machine, kind: State['kind'], thing?: string): readonly number[] {
  const lines = machine.states
    .filter((state) => state.kind === kind && (thing === undefined || thingsOf(state).includes(thing)))
    .map((state) => state.span.line)
  return [...new Set(lines)].sort((one, other) => one - other)
}
