import type { AxisId, AxisValueId } from '@lockwright/language'
import type { Machine, State, StateId } from '@lockwright/machine'
import type { Generations } from '../print-options.js'
import { isGate } from './gates.js'
import { lateExitOf } from './late-exit-of.js'
import { leftAtStops } from './left-at-stops.js'
import { loops } from './loops.js'
import { partsOf } from './parts.js'
import { type Known, type Presence, presenceOf } from './presence.js'
import { openExits, reach } from './reach.js'
import type { Chosen, Rail, Sheet, SheetStep, Way } from './sheet.js'
import { waysOf } from './ways.js'

/**
 * Reads a machine as a sheet. With a generation chosen, states that it never comes to, that do nothing on it,
 * and branches that it has decided are left out, and the rest is numbered anew.
 */
export function buildSheet(machine: Machine, generations: Generations = {}): Sheet {
  const chosen = chosenOf(machine, generations)
  const known: Known = new Map(chosen.map(({ axis, value }) => [axis.id, value.id]))
  const presence = presenceOf(machine, known)
  const reached = reach(machine, known)
  const shown = machine.states.filter((state) => reached.has(state.id) && !isPassed(state, known, presence))
  const numbers = numbersOf(machine, shown, known)
  const ways = shown.map((state, index) => waysOf(machine, state, known, numbers, index + 1))
  const looped = loops(
    ways.map((each) => each.flatMap((way) => (way.to === null || way.on === 'again' ? [] : [way.to - 1])))
  )
  const railsFor = railFinder(machine, known)
  const left = leftAtStops(machine, known)
  // A clock tells where to go when its time runs out, besides the steps that it times.
  const clocks = shown.map((state) => {
    const exit = state.kind === 'timer' ? lateExitOf(state.id, shown) : null
    return exit === null ? null : (numbers.get(exit.to) ?? null)
  })
  const steps = shown.map(
    (state, index): SheetStep => ({
      number: index + 1,
      state,
      intro: state.intro,
      gate: isGate(state.kind),
      rails: railsFor(state),
      inputs: state.inputs.filter(presence.asks),
      again: looped.has(index),
      retake: state.exits.some((exit) => exit.on === 'again'),
      ...comingFrom(ways, clocks, index + 1),
      ways: ways[index] ?? [],
      left: left.get(state.id) ?? null
    })
  )
  const parts = partsOf(machine, steps)
  return { machine, chosen, steps: parts.flatMap((part) => part.steps), parts, numbers }
}

function chosenOf(machine: Machine, generations: Generations): readonly Chosen[] {
  return machine.axes.flatMap((axis) => {
    const value = axis.values.find((each) => each.id === generations[axis.id])
    return value === undefined ? [] : [{ axis, value }]
  })
}

/** Not printed, where it bears no words: a branch that was decided, a way back (the step before tells it), a step that does nothing. */
function isPassed(state: State, known: Known, presence: Presence): boolean {
  const decided = state.kind === 'back' || (state.kind === 'branch' && known.has(state.axis))
  if (decided && state.intro.length + state.notices.length === 0) {
    return openExits(state, known).every((exit) => !('says' in exit) || exit.says.length === 0)
  }
  return !presence.does(state)
}

/** Shown states in order; those passed over take the number of the state that they lead to. */
function numbersOf(machine: Machine, shown: readonly State[], known: Known): ReadonlyMap<StateId, number> {
  const numbers = new Map(shown.map((state, index) => [state.id, index + 1]))
  const byId = new Map(machine.states.map((state) => [state.id, state]))
  for (const state of machine.states) {
    const trail: StateId[] = []
    let at: State | undefined = state
    while (at !== undefined && !numbers.has(at.id) && !trail.includes(at.id)) {
      trail.push(at.id)
      const exits = openExits(at, known)
      const onward: StateId | undefined = (exits.find(({ on }) => on === 'done' || on === 'inside') ?? exits[0])?.to
      at = onward === undefined ? undefined : byId.get(onward)
    }
    const number = at === undefined ? undefined : numbers.get(at.id)
    if (number !== undefined) for (const id of trail) numbers.set(id, number)
  }
  return numbers
}

/** A step is for the values of an axis with which it is reached and does something; for all of them it has no rail. */
function railFinder(machine: Machine, known: Known): (state: State) => readonly Rail[] {
  const open = machine.axes
    .filter((axis) => !known.has(axis.id))
    .map((axis) => ({
      axis,
      reaches: axis.values.map((value) => {
        const narrowed = new Map<AxisId, AxisValueId>([...known, [axis.id, value.id]])
        return { value, presence: presenceOf(machine, narrowed), reached: reach(machine, narrowed) }
      })
    }))
  return (state) =>
    open.flatMap(({ axis, reaches }) => {
      const values = reaches
        .filter(({ reached, presence }) => reached.has(state.id) && presence.does(state))
        .map(({ value }) => value)
      return values.length === axis.values.length ? [] : [{ axis: axis.id, values }]
    })
}

function comingFrom(
  ways: readonly (readonly Way[])[],
  clocks: readonly (number | null)[],
  number: number
): Pick<SheetStep, 'backFrom' | 'onlyFrom'> {
  const leads = (way: Way): boolean => way.to === number && way.on !== 'again'
  const from = ways.flatMap((each, index) => (each.some(leads) || clocks[index] === number ? [index + 1] : []))
  const falls = number === 1 || ways[number - 2]?.some((way) => way.next && simply.has(way.on)) === true
  return { backFrom: from.filter((each) => each >= number), onlyFrom: falls ? [] : from }
}

/** Ways that need no answer: one simply goes on. */
const simply: ReadonlySet<Way['on']> = new Set<Way['on']>(['done', 'inside', 'identified'])
