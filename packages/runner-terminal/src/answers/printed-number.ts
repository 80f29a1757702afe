import { doesNothing, firstLedger, type Machine, modelOf, type StateId } from '@lockwright/machine'

/**
 * The states as a sheet for every generation numbers them: those that some path leads to, in the order in which they
 * are read, without ways back that bear no words and steps that never do anything. A sheet that is printed for one
 * generation alone has numbers of its own.
 */
export function printedNumbers(machine: Machine): ReadonlyMap<StateId, number> {
  const model = modelOf(machine)
  const ledger = firstLedger(model)
  const byId = new Map(machine.states.map((state) => [state.id, state]))
  const reached = new Set<StateId>([machine.start])
  // A set grows while it is walked.
  for (const id of reached) for (const { to } of byId.get(id)?.exits ?? []) reached.add(to)
  const printed = machine.states.filter((state) => {
    if (!reached.has(state.id)) return false
    const silent = state.intro.length + state.notices.length === 0
    const passes = state.kind === 'back' && silent
    const says = state.exits.some((exit) => 'says' in exit && exit.says.length > 0)
    return passes ? says : !doesNothing(model, ledger, state)
  })
  return new Map(printed.map(({ id }, index) => [id, index + 1]))
}
