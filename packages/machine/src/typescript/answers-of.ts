import type { Machine } from '../machine.js'
import type { Input, State, StateKind } from '../state.js'

/**
 * The answers that a state takes, as members of a TypeScript union; null for a state that no run rests in.
 * Literal ids everywhere, so that nothing else compiles.
 */
export function answersOf(machine: Machine, state: State): readonly string[] | null {
  if (passing.has(state.kind)) return null
  return [
    ...whileIn(state),
    ...atItsEnd(state),
    ...(state.exits.some((exit) => exit.on === 'late') ? [`Late<${literal(state.id)}>`] : []),
    ...(mayDiffer.has(state.kind)
      ? [`Deviation<${literal(state.id)}, ${union(machine.roles.map(({ id }) => id))}>`]
      : [])
  ]
}

/** States that pass of themselves. */
const passing: ReadonlySet<StateKind> = new Set<StateKind>(['branch', 'back', 'timer'])

/** A TypeScript string literal type; JSON's escapes are TypeScript's. */
export function literal(text: string): string {
  const json = JSON.stringify(text).replaceAll('\u2028', '\\u2028').replaceAll('\u2029', '\\u2029')
  return json.includes("'") || json.includes('\\') ? json : `'${json.slice(1, -1)}'`
}

function union(texts: readonly string[]): string {
  return texts.length === 0 ? 'never' : texts.map(literal).join(' | ')
}

/** The steps that may be done differently, with a reason: the gates are none of them. As `advance` has it. */
const mayDiffer: ReadonlySet<StateKind> = new Set<StateKind>([
  'gather',
  'notify',
  'operate',
  'look',
  'live',
  'shutdown',
  'lamp',
  'work',
  'wait'
])

function whileIn(state: State): string[] {
  const readings = state.inputs.filter(({ kind }) => kind === 'reading')
  const waits = state.inputs.filter(({ kind }) => kind === 'wait')
  const answers: string[] = []
  if (readings.length > 0) answers.push(`ReadingTaken<${literal(state.id)}, ${ids(readings)}>`)
  if (waits.length > 0) answers.push(`Waited<${literal(state.id)}, ${ids(waits)}>`)
  const hung = state.inputs.flatMap((input) => (input.kind === 'lock' ? [input.point] : []))
  if (hung.length > 0) answers.push(`LockHung<${literal(state.id)}, ${union(hung)}>`)
  const removed = state.inputs.flatMap((input) => (input.kind === 'unlock' ? [input.point] : []))
  if (removed.length > 0) answers.push(`LockRemoved<${literal(state.id)}, ${union(removed)}>`)
  return answers
}

function ids(inputs: readonly Input[]): string {
  return union(inputs.map(({ id }) => id))
}

function atItsEnd(state: State): string[] {
  const ticks = `${union(state.notices.map(({ id }) => id))}, ${ids(state.inputs.filter(({ kind }) => kind === 'box'))}`
  const id = literal(state.id)
  if (state.kind === 'signoff') return [`Signed<${id}, ${literal(state.role)}, ${literal(state.meaning)}, ${ticks}>`]
  if (state.kind === 'finish') return [`Finished<${id}, ${ticks}>`]
  const offered = state.exits.flatMap((exit) => {
    if (exit.on === 'answer') return [exit.answer]
    if (exit.on === 'identified') return [exit.value]
    return exit.on === 'outside' ? ['outside'] : []
  })
  return [
    ...(state.exits.some(({ on }) => on === 'done' || on === 'inside') ? [`Done<${id}, ${ticks}>`] : []),
    ...(offered.length > 0 ? [`Choice<${id}, ${union(offered)}, ${ticks}>`] : [])
  ]
}
