import type { AxisId, AxisValueId } from '@lockwright/language'
import type { StateId } from '../../ids.js'
import type { Machine, Only } from '../../machine.js'
import type { Exit, State } from '../../state.js'
import { distinctNames, nameOf } from '../distinct-names.js'

/** What is known of the generation; an axis that was not identified yet is not in it. */
export type Known = Readonly<Record<AxisId, AxisValueId>>

export interface ChartState {
  /** Letters, digits, `_` and `-`; begins with a letter or `_`. */
  readonly id: string
  readonly state: State
  readonly known: Known
  /** `event` null: gone by itself. */
  readonly moves: readonly { readonly event: string | null; readonly to: string }[]
}

/**
 * The machine as a flat chart for tools that keep no ledger. What such a tool would have to look up, the generation of
 * the hardware, is unfolded: a state stands once for each knowledge with which it can be reached. So branches, and
 * steps whose things are absent, are gone through by themselves, as `advance` does.
 */
export interface Chart {
  readonly initial: string
  readonly states: readonly ChartState[]
  /** Where a run ends; no state of the machine. */
  readonly finished: string
  readonly stopped: string
}

export function chartOf(machine: Machine): Chart {
  const stateOf = new Map<string, State>(machine.states.map((state) => [state.id, state]))
  const events = eventNames(machine)
  const nodes = new Map<string, { readonly state: State; readonly known: Known; readonly ways: readonly Way[] }>()

  const open: [StateId, Known][] = [[machine.start, {}]]
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    const [id, known] = next
    const state = stateOf.get(id)
    if (state === undefined) throw new Error(`the machine has no state ${id}`)
    const key = keyOf(machine, id, known)
    if (nodes.has(key)) continue
    const ways = waysFrom(machine, state, known, events)
    nodes.set(key, { state, known, ways })
    for (const way of ways) open.push([way.to, way.known])
  }

  const order = new Map<string, number>(machine.states.map(({ id }, index) => [id, index]))
  const sorted = [...nodes.entries()].sort(
    ([oneKey, one], [otherKey, other]) =>
      (order.get(one.state.id) ?? 0) - (order.get(other.state.id) ?? 0) || (oneKey < otherKey ? -1 : 1)
  )
  const ends = ['finished', 'stopped'] as const
  const ids = distinctNames([...ends, ...sorted.map(([key]) => key)], spell)
  const end = (state: State): readonly ChartState['moves'][number][] =>
    state.kind === 'finish'
      ? [{ event: 'run.finished', to: nameOf(ids, 'finished') }]
      : state.kind === 'stop'
        ? [{ event: 'run.stopped', to: nameOf(ids, 'stopped') }]
        : []
  return {
    initial: nameOf(ids, keyOf(machine, machine.start, {})),
    finished: nameOf(ids, 'finished'),
    stopped: nameOf(ids, 'stopped'),
    states: sorted.map(([key, { state, known, ways }]) => ({
      id: nameOf(ids, key),
      state,
      known,
      moves: [
        ...ways.map((way) => ({ event: way.event, to: nameOf(ids, keyOf(machine, way.to, way.known)) })),
        ...end(state)
      ]
    }))
  }
}

interface Way {
  readonly event: string | null
  readonly to: StateId
  readonly known: Known
}

function waysFrom(machine: Machine, state: State, known: Known, events: (exit: Exit, state: State) => string): Way[] {
  const passing = passedBy(machine, state, known)
  if (passing) {
    const exit = state.exits.find((candidate) =>
      state.kind === 'branch'
        ? candidate.on === 'value' && candidate.value === known[state.axis]
        : candidate.on === 'done' || candidate.on === 'inside' || candidate.on === 'identified'
    )
    return exit === undefined ? [] : [{ event: null, to: exit.to, known }]
  }
  return state.exits.flatMap((exit): Way[] => {
    const event = events(exit, state)
    if (state.kind !== 'identify') return [{ event, to: exit.to, known }]
    if (exit.on === 'identified') return [{ event, to: exit.to, known: { ...known, [state.axis]: exit.value } }]
    return [{ event, to: exit.to, known }]
  })
}

/** Whether a run does not rest in the state: it asks for nothing on this generation. */
function passedBy(machine: Machine, state: State, known: Known): boolean {
  switch (state.kind) {
    case 'timer':
    case 'back':
      return true
    case 'branch':
    case 'identify':
      return known[state.axis] !== undefined
    default:
      return state.things.length > 0 && state.things.every(({ id }) => absent(onlyOf(machine, id), known))
  }
}

function onlyOf({ sources, points, restraints }: Machine, id: string): Only {
  return [...sources, ...points, ...restraints].find((thing) => thing.id === id)?.only ?? []
}

function absent(only: Only, known: Known): boolean {
  return only.some(({ axis, values }) => {
    const value = known[axis]
    return value !== undefined && !values.includes(value)
  })
}

/** No id holds a line end, so that two different pairs never share a key. */
function keyOf({ axes }: Machine, id: StateId, known: Known): string {
  return [id, ...axes.flatMap((axis) => known[axis.id] ?? [])].join('\n')
}

/** Names of events: words of this house before the first dot, so that none is taken for an event of the tool itself. */
function eventNames(machine: Machine): (exit: Exit, state: State) => string {
  const values = distinctNames(
    machine.axes.flatMap((axis) => axis.values.map((value) => `${axis.id}.${value.id}`)),
    (id) => id.split('.').map(spell).join('.')
  )
  const timers = distinctNames<string>(
    machine.states.filter(({ kind }) => kind === 'timer').map(({ id }) => id),
    spell
  )
  const axisOf = (state: State): string => ('axis' in state ? state.axis : '')
  return (exit, state) => {
    switch (exit.on) {
      case 'done':
        return 'step.done'
      case 'answer':
        return `answer.${spell(exit.answer)}`
      case 'identified':
      case 'value':
        return `hardware.${nameOf(values, `${axisOf(state)}.${exit.value}`)}`
      case 'inside':
      case 'again':
      case 'outside':
        return `reading.${exit.on}`
      case 'late':
        return `late.${nameOf(timers, exit.within)}`
    }
  }
}

/** An XML name (and NMTOKEN), and no dot, which would be a path to other tools. */
function spell(id: string): string {
  const name = id.replaceAll('\n', '--').replace(/[^A-Za-z0-9_-]/g, '_')
  return /^[A-Za-z_]/.test(name) ? name : `_${name}`
}
