import type { AxisId, AxisValueId } from '@lockwright/language'
import type { Span, State } from '@lockwright/machine'
import { type GenerationGraph, generationGraph } from '../paths/generation-graph.js'
import { type Generation, generationsOf, tellGeneration } from '../paths/generations.js'
import type { Change } from './comparison.js'
import { type Gate, gatesOf } from './gate-bits.js'
import type { Reading } from './shared-names.js'
import type { StepEntry } from './step-entries.js'
import { stepWords } from './step-kinds.js'
import { type WayWithout, waysWithout } from './way-without.js'

/** A step that both revisions hold and that nobody may come to without the gates before it. */
interface Target {
  readonly old: State
  readonly next: State
}

/** One revision on one generation. */
interface Side {
  readonly generation: Generation
  readonly graph: GenerationGraph
  readonly without: (key: string) => WayWithout
  readonly nodesOf: (state: State) => readonly number[]
}

/**
 * Gates that some way to a step passes by in one revision while every way passes them in the other, generation by
 * generation. Of a gate that only one of the revisions holds, its step is told, not each way.
 */
export function wayChanges(
  old: Reading,
  next: Reading,
  pairs: readonly { readonly old: StepEntry; readonly next: StepEntry }[]
): readonly Change[] {
  const targets = targetsOf(pairs)
  const gates = gatesOf(next.machine, next.name)
  const before = gatesOf(old.machine, old.name)
  const shared = [...gates.keys()].filter((key) => before.has(key)).sort()
  const found = new Map<string, Missing>()
  const sides = alike(old, next, sidesOf(old, before), sidesOf(next, gates))
  sides.forEach((pair, number) => {
    for (const gate of shared) for (const target of targets) note(found, gate, target, pair, number)
  })
  return gathered([...found.values()]).map((missing) => changeOf(missing, gates, sides.length))
}

function targetsOf(pairs: readonly { readonly old: StepEntry; readonly next: StepEntry }[]): readonly Target[] {
  const targets = new Map<string, Target>()
  for (const { old, next } of pairs) {
    const target = { old: old.unit.state, next: next.unit.state }
    if (isExposed(target.old) && isExposed(target.next)) targets.set(`${target.old.step} ${target.next.step}`, target)
  }
  return [...targets.values()]
}

function isExposed(state: State): boolean {
  switch (state.kind) {
    case 'work':
    case 'live':
    case 'energize':
    case 'finish':
      return true
    case 'measure':
      return state.near.length > 0
    default:
      return false
  }
}

function sidesOf({ machine }: Reading, gates: ReadonlyMap<string, Gate>): readonly Side[] {
  return generationsOf(machine).map((generation) => {
    const graph = generationGraph(machine, generation)
    const known = new Map<string, WayWithout>()
    const nodes = new Map<string, number[]>()
    graph.nodes.forEach(({ state }, node) => {
      const key = `${state.kind} ${state.step}`
      nodes.set(key, [...(nodes.get(key) ?? []), node])
    })
    return {
      generation,
      graph,
      without: (key) => {
        const gate = gates.get(key)
        if (gate === undefined) throw new Error('the gate is not of this machine')
        const way = known.get(key) ?? waysWithout(machine, graph, gate)
        known.set(key, way)
        return way
      },
      nodesOf: ({ kind, step }) => nodes.get(`${kind} ${step}`) ?? []
    }
  })
}

interface Alike {
  readonly before: Side
  readonly now: Side
}

/** Generations of the two revisions that agree on every axis that both have. */
function alike(old: Reading, next: Reading, before: readonly Side[], now: readonly Side[]): readonly Alike[] {
  const named = ({ generation }: Side, { name, value }: Reading): ReadonlyMap<string, string> =>
    new Map([...generation].map(([axis, one]: [AxisId, AxisValueId]) => [name(axis), value(axis, one)]))
  return before.flatMap((one) => {
    const values = named(one, old)
    return now
      .filter((other) => [...named(other, next)].every(([axis, value]) => (values.get(axis) ?? value) === value))
      .map((other) => ({ before: one, now: other }))
  })
}

interface Missing {
  readonly keys: readonly string[]
  readonly tendency: 'loosening' | 'tightening'
  readonly targets: Set<Target>
  /** Pairs of generations, by number, each as it is told. */
  readonly generations: Map<number, string>
  readonly way: Change['way']
}

function note(found: Map<string, Missing>, gate: string, target: Target, { before, now }: Alike, number: number): void {
  const were = before.nodesOf(target.old)
  const are = now.nodesOf(target.next)
  if (were.length === 0 || are.length === 0) return
  const then = shortest(before.without(gate), were)
  const since = shortest(now.without(gate), are)
  if ((then === null) === (since === null)) return
  const tendency = then === null ? 'loosening' : 'tightening'
  const way = stepsOf(then === null ? now.graph : before.graph, since ?? then ?? [])
  const key = `${tendency} ${gate}`
  const known = found.get(key)
  const missing = known ?? { keys: [gate], tendency, targets: new Set(), generations: new Map(), way }
  missing.targets.add(target)
  missing.generations.set(number, tellGeneration(now.generation) || tellGeneration(before.generation))
  found.set(key, isBefore(way, missing.way) ? { ...missing, way } : missing)
}

/** The shorter one; of equals always the same, whichever was found first. */
function isBefore(one: Change['way'], other: Change['way']): boolean {
  if (one.length !== other.length) return one.length < other.length
  return JSON.stringify(one) < JSON.stringify(other)
}

/** Gates that are missing on one and the same way to the same steps are told together. */
function gathered(all: readonly Missing[]): readonly Missing[] {
  const groups = new Map<string, Missing>()
  for (const missing of all) {
    const steps = [...missing.targets].map(({ old, next }) => `${old.step} ${next.step}`).sort()
    const name = JSON.stringify([missing.tendency, steps, [...missing.generations.keys()], missing.way])
    const group = groups.get(name)
    groups.set(name, group === undefined ? missing : { ...group, keys: [...group.keys, ...missing.keys] })
  }
  return [...groups.values()]
}

function shortest(without: WayWithout, nodes: readonly number[]): readonly number[] | null {
  return nodes
    .map(without)
    .reduce((best, way) => (way !== null && (best === null || way.length < best.length) ? way : best), null)
}

function stepsOf({ nodes }: GenerationGraph, way: readonly number[]): Change['way'] {
  return way.flatMap((index) => {
    const node = nodes[index]
    const silent = node === undefined || node.passed || ['branch', 'timer', 'back'].includes(node.state.kind)
    return silent ? [] : [{ line: node.state.span.line, title: node.state.title }]
  })
}

function changeOf(missing: Missing, gates: ReadonlyMap<string, Gate>, generations: number): Change {
  const names = missing.keys.flatMap((key) => {
    const gate = gates.get(key)
    return gate === undefined ? [] : [gateName(gate)]
  })
  const targets = [...missing.targets].sort((one, other) => one.next.span.line - other.next.span.line)
  const where = targets.map(({ next }) => `${next.title} (line ${next.span.line})`).join('; ')
  const on =
    missing.generations.size === generations ? '' : `, on ${[...new Set(missing.generations.values())].join('; ')}`
  const looser = missing.tendency === 'loosening'
  return {
    tendency: missing.tendency,
    topic: 'way',
    what: `Some way to ${where} ${looser ? 'now goes' : 'went'} without this: ${names.join(', ')}.`,
    why: looser ? `Before, every way had it${on}.` : `Now every way has it${on}.`,
    // The first place in either revision: so it is the same whichever of them is the old one.
    old: firstOf(targets.map(({ old }) => old.span)),
    next: firstOf(targets.map(({ next }) => next.span)),
    way: missing.way
  }
}

function gateName({ kind, thing }: Gate): string {
  const name = stepWords[kind]?.name ?? kind
  const begun = `${name.charAt(0).toLowerCase()}${name.slice(1)}`
  return thing === null ? begun : `${begun} \`${thing}\``
}

function firstOf(spans: readonly Span[]): Span | null {
  return spans.reduce<Span | null>((first, span) => (first === null || span.line < first.line ? span : first), null)
}
