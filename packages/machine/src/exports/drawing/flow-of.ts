import type { Machine } from '../../machine.js'
import type { Exit, State, StateKind } from '../../state.js'

/**
 * What a step is to the person who reads the drawing; each has a shape of its own. The shapes are ours, and no colour
 * means anything.
 */
export type Role = 'step' | 'secures' | 'verifies' | 'restores' | 'hands-on' | 'choice' | 'end' | 'passing'

/** A way out of a step; `label` says when it is taken, null where it is the only one. */
export interface FlowExit {
  readonly label: string | null
  readonly to: number
  readonly late: boolean
}

export interface FlowNode {
  /** Number in the drawing, from 1, in the order in which the procedure is read. */
  readonly number: number
  readonly state: State
  readonly role: Role
  /** The step of which this is a copy. */
  readonly copyOf: number | null
  /** What else there is to say of it, in a few words each. */
  readonly facts: readonly string[]
  readonly exits: readonly FlowExit[]
}

/** The steps of one section, or of one copy of it. */
export interface Panel {
  readonly title: string
  readonly copy: boolean
  readonly nodes: readonly FlowNode[]
}

/** The machine as it is drawn. */
export interface Flow {
  readonly panels: readonly Panel[]
  readonly first: number
}

export function flowOf(machine: Machine): Flow {
  const numbers = new Map<string, number>(machine.states.map(({ id }, index) => [id, index + 1]))
  const numberOf = (id: string): number => {
    const number = numbers.get(id)
    if (number === undefined) throw new Error(`the machine has no state ${id}`)
    return number
  }
  const panels = new Map<string, { title: string; copy: boolean; nodes: FlowNode[] }>()
  for (const state of machine.states) {
    const copy = state.id.slice(0, state.id.lastIndexOf('/') + 1)
    const key = `${copy}\n${state.section ?? ''}`
    const panel = panels.get(key) ?? { title: titleOf(machine, state, copy), copy: copy !== '', nodes: [] }
    panels.set(key, panel)
    panel.nodes.push({
      number: numberOf(state.id),
      state,
      role: roleOf(state.kind),
      copyOf: copy === '' ? null : (numbers.get(state.step) ?? null),
      facts: factsOf(machine, state),
      exits: exitsOf(state, numberOf)
    })
  }
  return { panels: [...panels.values()], first: numberOf(machine.start) }
}

function titleOf(machine: Machine, { section }: State, copy: string): string {
  const title = machine.sections.find(({ id }) => id === section)?.title ?? ''
  if (copy === '') return title
  const [, remedy, what] = /\.(\d+)\.(relock|retest)\/$/.exec(copy) ?? []
  if (remedy === undefined) return `${title} (done again)`
  return `${title} (done again ${what === 'retest' ? `to test remedy ${remedy}` : `because remedy ${remedy} did not cure`})`
}

function roleOf(kind: StateKind): Role {
  switch (kind) {
    case 'gather':
    case 'notify':
    case 'operate':
    case 'look':
    case 'shutdown':
    case 'lamp':
    case 'wait':
    case 'notice':
      return 'step'
    case 'isolate':
    case 'lock':
    case 'relieve':
    case 'restrain':
      return 'secures'
    case 'prove':
    case 'tryout':
    case 'signoff':
    case 'inspect':
    case 'clear':
      return 'verifies'
    case 'remove':
    case 'unlock':
    case 'energize':
      return 'restores'
    case 'work':
    case 'live':
      return 'hands-on'
    case 'identify':
    case 'measure':
    case 'ask':
    case 'branch':
      return 'choice'
    case 'stop':
    case 'finish':
      return 'end'
    case 'timer':
    case 'back':
      return 'passing'
  }
}

function factsOf(machine: Machine, state: State): readonly string[] {
  const role = machine.roles.find(({ id }) => id === state.role)?.name
  const known = state.kind === 'identify' ? machine.axes.find(({ id }) => id === state.axis)?.values : undefined
  return [
    state.kind,
    ...(known === undefined ? [] : [known.map(({ id }) => id).join(' or ')]),
    ...(state.exits.some(({ on }) => on === 'again') ? ['again if out of limits'] : []),
    ...(role === undefined ? [] : [role]),
    ...(state.minutes === null ? [] : [`${state.minutes} min`]),
    `line ${state.span.line}`
  ]
}

/** Ways to one place are one way; what is taken again from the same state is told in words. */
function exitsOf(state: State, numberOf: (id: string) => number): readonly FlowExit[] {
  const exits: FlowExit[] = []
  for (const exit of state.exits) {
    const label = labelOf(state, exit)
    if (exit.on === 'again') continue
    const to = numberOf(exit.to)
    const late = exit.on === 'late'
    const known = exits.findIndex((other) => other.to === to && other.late === late && exit.on !== 'answer')
    const same = exits[known]
    if (same === undefined) exits.push({ label, to, late })
    else exits[known] = { ...same, label: same.label === label ? label : `${same.label}, ${label}` }
  }
  return exits
}

function labelOf(state: State, exit: Exit): string | null {
  switch (exit.on) {
    case 'done':
    case 'identified':
      return null
    case 'answer':
      return exit.label
    case 'value':
      return exit.value
    case 'inside':
      return state.exits.some(({ on }) => on === 'outside') ? 'within limits' : null
    case 'again':
      return null
    case 'outside':
      return 'stays out of limits'
    case 'late':
      return 'not in time'
  }
}
