import type { Machine, State } from '@lockwright/machine'
import { pointsFeeding } from '../arrangement.js'
import type { GenerationGraph } from '../paths/generation-graph.js'
import { existsOn } from '../paths/generations.js'
import { actsOn } from './step-entries.js'

/** A gate that can be passed: its kind and what it acts on, by the name that both revisions share. */
export interface Gate {
  readonly kind: State['kind']
  /** As this revision calls it; null where it acts on no single thing. */
  readonly thing: string | null
}

/** Kinds of which it matters whether every way has passed them. */
const gateKinds: ReadonlySet<State['kind']> = new Set([
  'notify',
  'shutdown',
  'identify',
  'isolate',
  'lock',
  'relieve',
  'restrain',
  'prove',
  'tryout',
  'signoff',
  'measure',
  'wait',
  'inspect',
  'clear'
])

/** Every gate of the machine, by a key in which things bear their shared name. */
export function gatesOf(machine: Machine, name: (id: string) => string): ReadonlyMap<string, Gate> {
  const gates = new Map<string, Gate>()
  for (const state of machine.states) {
    if (!gateKinds.has(state.kind)) continue
    for (const thing of thingsPassed(state)) gates.set(gateKey(state.kind, thing, name), { kind: state.kind, thing })
  }
  return gates
}

export function gateKey(kind: State['kind'], thing: string | null, name: (id: string) => string): string {
  return `${kind} ${thing === null ? '' : name(thing)}`
}

/** A sign-off counts by the role that signs: the step may have been moved or renamed. */
function thingsPassed(state: State): readonly (string | null)[] {
  if (state.kind === 'signoff') return [state.role]
  const things = actsOn(state)
  return things.length === 0 ? [null] : things
}

/**
 * What a node does to the fact that a gate was passed and holds: 1 it is passed, 0 it is undone, null neither. A lock is
 * undone by unlocking, a restraint by taking it off; what was let out, proven or tried by bringing energy back.
 */
export function gateEffect(
  machine: Machine,
  gate: Gate
): (node: GenerationGraph['nodes'][number], graph: GenerationGraph) => 0 | 1 | null {
  const feeding = gate.kind === 'relieve' || gate.kind === 'prove' ? feedingOf(machine, gate) : new Set<string>()
  return ({ state, known, passed }, { generation }) => {
    if (passed) return null
    if (state.kind === gate.kind && thingsPassed(state).includes(gate.thing)) {
      return existsOn(generation, known, onlyOf(machine, gate.thing)) ? 1 : null
    }
    switch (state.kind) {
      case 'unlock':
      case 'energize':
        if (gate.kind === 'tryout') return 0
        if (gate.kind === 'lock' || gate.kind === 'isolate') return undoes(state.points, gate.thing)
        return state.points.some((point) => feeding.has(point)) ? 0 : null
      case 'remove':
        return gate.kind === 'restrain' ? undoes(state.restraints, gate.thing) : null
      default:
        return null
    }
  }
}

function undoes(things: readonly string[], thing: string | null): 0 | null {
  return things.some((one) => one === thing) ? 0 : null
}

function feedingOf(machine: Machine, { thing }: Gate): ReadonlySet<string> {
  const source = machine.sources.find(({ id }) => id === thing)
  return new Set(source === undefined ? [] : pointsFeeding(machine, source.id))
}

function onlyOf({ sources, points, restraints }: Machine, thing: string | null): Machine['sources'][number]['only'] {
  return [...sources, ...points, ...restraints].find(({ id }) => id === thing)?.only ?? []
}
