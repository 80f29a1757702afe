import { type Exit, type Machine, modelOf, pack, passedBy, type Snapshot, type StateId } from '@lockwright/machine'

/** How far the run has come, counted along the shortest way: step n of about m. */
export interface Way {
  readonly step: number
  readonly about: number
}

/** `about` counts to the finish; where only a stop can be reached from here, to that stop. */
export function wayOf(machine: Machine, snapshot: Snapshot): Way {
  const known = ways.get(snapshot)
  if (known?.machine === machine) return known.way
  const way = foundWay(machine, snapshot)
  ways.set(snapshot, { machine, way })
  return way
}

/** A snapshot never changes, and is shown again for each key that is typed. */
const ways = new WeakMap<Snapshot, { readonly machine: Machine; readonly way: Way }>()

function foundWay(machine: Machine, snapshot: Snapshot): Way {
  const model = modelOf(machine)
  const packed = pack(model, snapshot.ledger)
  const graph = new Map(machine.states.map((state) => [state.id, state]))
  const rests = (id: StateId): boolean => {
    const state = graph.get(id)
    // What has been identified is passed by from now on, but was a step on the way here.
    return state !== undefined && (state.kind === 'identify' || !passedBy(model, packed, state))
  }
  const next = (id: StateId): readonly StateId[] =>
    (graph.get(id)?.exits ?? []).filter((exit) => mayBeTaken(machine, snapshot, id, exit)).map(({ to }) => to)
  const behind = distances(machine.start, next, rests)
  const ahead = distances(snapshot.state, next, rests)
  const nearest = (kind: 'finish' | 'stop'): number =>
    Math.min(
      ...machine.states
        .filter((state) => state.kind === kind)
        .map(({ id }) => ahead.get(id) ?? Number.POSITIVE_INFINITY)
    )
  const toFinish = nearest('finish')
  const left = Number.isFinite(toFinish) ? toFinish : nearest('stop')
  const step = (behind.get(snapshot.state) ?? 0) + 1
  return { step, about: step + (Number.isFinite(left) ? left : 0) }
}

/** A known generation takes its own branch alone. */
function mayBeTaken(machine: Machine, { ledger }: Snapshot, from: StateId, exit: Exit): boolean {
  if (exit.on !== 'value') return true
  const state = machine.states.find(({ id }) => id === from)
  const known = state?.kind === 'branch' ? (ledger.axes[state.axis] ?? 'unknown') : 'unknown'
  return known === 'unknown' || known === exit.value
}

/** Resting states passed on the shortest way from `start` to each state. */
function distances(
  start: StateId,
  next: (id: StateId) => readonly StateId[],
  rests: (id: StateId) => boolean
): ReadonlyMap<StateId, number> {
  const found = new Map<StateId, number>([[start, 0]])
  let level: readonly StateId[] = [start]
  // A state that does not rest costs nothing: it is walked through within its level.
  while (level.length > 0) {
    const later: StateId[] = []
    const queue = [...level]
    for (let id = queue.shift(); id !== undefined; id = queue.shift()) {
      const cost = (found.get(id) ?? 0) + (rests(id) ? 1 : 0)
      for (const to of next(id)) {
        if (cost >= (found.get(to) ?? Number.POSITIVE_INFINITY)) continue
        found.set(to, cost)
        if (rests(id)) later.push(to)
        else queue.push(to)
      }
    }
    level = later
  }
  return found
}
