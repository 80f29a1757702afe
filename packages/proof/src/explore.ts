import {
  type Derived,
  doStep,
  type Exit,
  emptyDerived,
  firstLedger,
  type Machine,
  type Model,
  modelOf,
  type PackedLedger,
  passedBy,
  type State,
  type Unmet
} from '@lockwright/machine'

/** A step of a way through the machine: which state was left, by which exit, and the ledger behind it. */
export interface Move {
  readonly state: State
  readonly exit: Exit
  readonly after: PackedLedger
}

/** Needs that are not met in one configuration. */
export interface Breach {
  readonly configuration: number
  readonly unmet: readonly Unmet[]
}

/** Every reachable pair of state and ledger, in the order of the shortest way to it. */
export interface Exploration {
  readonly model: Model
  /** False where the limit was reached: then nothing is proven. */
  readonly complete: boolean
  readonly configurations: number
  /** Index of the state of each configuration. */
  readonly stateOf: readonly number[]
  readonly ledgerOf: readonly PackedLedger[]
  readonly breaches: readonly Breach[]
  /** Ids of the obligations of all needs that were looked at. */
  readonly asked: ReadonlySet<string>
  /** By state index: whether some configuration stands there. */
  readonly reached: readonly boolean[]
  /** States with a configuration from which no end can be reached; known only of a complete exploration. */
  readonly stuck: readonly number[]
  /** The shortest way to a configuration. */
  readonly wayTo: (configuration: number) => readonly Move[]
}

/**
 * Explores the machine breadth first: a queue, a map of full keys, a predecessor for each configuration.
 * Every answer, in and out of limits, in time and late, every generation; a need that is not met is noted
 * and the effect applies all the same. `limit`: the most configurations that are looked at.
 */
export function explore(machine: Machine, limit: number): Exploration {
  const model = modelOf(machine)
  const scratch = emptyDerived(model)
  const stateOf: number[] = []
  const ledgerOf: PackedLedger[] = []
  const predecessor: number[] = []
  const exitTaken: (Exit | null)[] = []
  // Equal ledgers are kept once, under their full bytes; a configuration is then two small numbers.
  const ledgerIds = new Map<string, number>()
  const ledgerIdOf: number[] = []
  const known = new Map<number, number>()
  const edges: { readonly from: number[]; readonly to: number[] } = { from: [], to: [] }
  const breaches: Breach[] = []
  const reached = machine.states.map(() => false)
  let complete = true

  const idOf = (ledger: PackedLedger): number => {
    const key = keyOf(ledger)
    let id = ledgerIds.get(key)
    if (id === undefined) {
      id = ledgerIds.size
      ledgerIds.set(key, id)
    }
    return id
  }

  const visit = (state: number, ledger: PackedLedger, ledgerId: number, from: number, exit: Exit | null): void => {
    if (state < 0) throw new Error('an exit leads out of the machine')
    const key = ledgerId * machine.states.length + state
    let configuration = known.get(key)
    if (configuration === undefined) {
      if (stateOf.length >= limit) {
        complete = false
        return
      }
      configuration = stateOf.length
      known.set(key, configuration)
      stateOf.push(state)
      ledgerOf.push(ledger)
      ledgerIdOf.push(ledgerId)
      predecessor.push(from)
      exitTaken.push(exit)
      reached[state] = true
    }
    if (from >= 0) {
      edges.from.push(from)
      edges.to.push(configuration)
    }
  }

  const indexOf = (id: Exit['to']): number => model.stateIndex.get(id) ?? -1
  const asked = new Set<string>()
  const askedStates = new Set<number>()
  const ends: number[] = []

  const first = firstLedger(model)
  visit(indexOf(machine.start), first, idOf(first), -1, null)
  for (let configuration = 0; configuration < stateOf.length; configuration += 1) {
    const stateIndex = stateOf[configuration] as number
    const ledger = ledgerOf[configuration] as PackedLedger
    const state = machine.states[stateIndex] as State
    if (!askedStates.has(stateIndex)) {
      askedStates.add(stateIndex)
      for (const turn of state.turns)
        for (const { rungs } of turn.needs) for (const rung of rungs) asked.add(rung.obligation)
    }
    let onward = 0
    const unmet: Unmet[] = []
    const ledgerId = ledgerIdOf[configuration] as number
    let last = { ledger, id: ledgerId }
    for (const { exit, after } of successors(model, state, ledger, scratch, unmet)) {
      if (after !== last.ledger) last = { ledger: after, id: after === ledger ? ledgerId : idOf(after) }
      visit(indexOf(exit.to), after, last.id, configuration, exit)
      onward += 1
    }
    if (unmet.length > 0) breaches.push({ configuration, unmet })
    // A branch that lacks the generation at hand ends here; branches-cover says so.
    if (onward === 0) ends.push(configuration)
  }

  // Work behind an unlock is what a test with power on in the middle of a repair looks like.
  if (asked.has('work-isolated') && machine.states.some(({ kind }) => kind === 'unlock')) asked.add('relock-after-test')

  return {
    model,
    complete,
    configurations: stateOf.length,
    stateOf,
    ledgerOf,
    breaches,
    asked,
    reached,
    stuck: complete ? stuckStates(stateOf, edges, ends) : [],
    wayTo: (configuration) => {
      const way: Move[] = []
      for (let at = configuration; (predecessor[at] ?? -1) >= 0; at = predecessor[at] as number) {
        const state = machine.states[stateOf[predecessor[at] as number] as number] as State
        way.push({ state, exit: exitTaken[at] as Exit, after: ledgerOf[at] as PackedLedger })
      }
      return way.reverse()
    }
  }
}

interface Successor {
  readonly exit: Exit
  readonly after: PackedLedger
}

function successors(
  model: Model,
  state: State,
  ledger: PackedLedger,
  scratch: Derived,
  unmet: Unmet[]
): readonly Successor[] {
  const note = (found: Unmet): void => {
    unmet.push(found)
  }
  switch (state.kind) {
    case 'stop':
    case 'finish':
      doStep(model, ledger, state, 0, scratch, note)
      return []
    case 'branch': {
      const after = doStep(model, ledger, state, 0, scratch, note)
      const value = knownValue(model, state.axis, ledger)
      const open = state.exits.filter((exit) => value === null || (exit.on === 'value' && exit.value === value))
      return open.map((exit) => ({ exit, after }))
    }
    case 'identify': {
      if (passedBy(model, ledger, state)) return onward(state, ledger)
      const values = model.machine.axes[model.axisIndex.get(state.axis) ?? -1]?.values ?? []
      return state.exits.flatMap((exit): Successor[] => {
        if (exit.on === 'late') return [{ exit, after: ledger }]
        if (exit.on !== 'identified') return []
        const answer = values.findIndex(({ id }) => id === exit.value) + 1
        const after = doStep(model, ledger, state, answer, scratch, note)
        return [{ exit, after }, ...lateAfter(state, after)]
      })
    }
    default: {
      if (passedBy(model, ledger, state)) return onward(state, ledger)
      const after = doStep(model, ledger, state, 0, scratch, note)
      return state.exits.flatMap((exit): Successor[] =>
        // Late comes before the step was done as well as with it done.
        exit.on === 'late'
          ? [
              { exit, after: ledger },
              { exit, after }
            ]
          : [{ exit, after }]
      )
    }
  }
}

function lateAfter(state: State, after: PackedLedger): readonly Successor[] {
  return state.exits.filter((exit) => exit.on === 'late').map((exit) => ({ exit, after }))
}

/** Where a state that is passed by leads: its first exit, with nothing done. */
function onward(state: State, ledger: PackedLedger): readonly Successor[] {
  const exit = state.exits.find(({ on }) => on === 'done' || on === 'inside' || on === 'identified')
  return exit === undefined ? [] : [{ exit, after: ledger }]
}

function knownValue(model: Model, axis: string, ledger: PackedLedger): string | null {
  const index = model.axisIndex.get(axis) ?? -1
  const value = ledger[model.layout.axes + index] ?? 0
  return value === 0 ? null : (model.machine.axes[index]?.values[value - 1]?.id ?? null)
}

/** The whole ledger, byte for byte: two different ledgers never share a key. */
function keyOf({ buffer, byteOffset, byteLength }: PackedLedger): string {
  return Buffer.from(buffer, byteOffset, byteLength).toString('latin1')
}

/** States with a configuration that no way backwards from an end arrives at. */
function stuckStates(
  stateOf: readonly number[],
  edges: { readonly from: readonly number[]; readonly to: readonly number[] },
  ends: readonly number[]
): readonly number[] {
  // The edges into each configuration lie side by side: from `first[configuration]` up to the next one's first.
  const first = new Int32Array(stateOf.length + 1)
  for (const to of edges.to) first[to + 1] = (first[to + 1] as number) + 1
  for (let at = 1; at < first.length; at += 1) first[at] = (first[at] as number) + (first[at - 1] as number)
  const free = first.slice()
  const into = new Int32Array(edges.to.length)
  edges.to.forEach((to, index) => {
    const at = free[to] as number
    into[at] = edges.from[index] as number
    free[to] = at + 1
  })
  const canEnd = new Uint8Array(stateOf.length)
  const queue = [...ends]
  for (let next = queue.pop(); next !== undefined; next = queue.pop()) {
    if (canEnd[next] === 1) continue
    canEnd[next] = 1
    for (let at = first[next] as number; at < (first[next + 1] as number); at += 1) queue.push(into[at] as number)
  }
  const stuck = new Set<number>()
  stateOf.forEach((state, configuration) => {
    if (canEnd[configuration] === 0) stuck.add(state)
  })
  return [...stuck].sort((one, other) => one - other)
}
