import type { Machine } from '../../machine.js'
import { distinctNames, nameOf } from '../distinct-names.js'

/** What everything of a machine is called in its Promela model. */
export interface Spelling {
  /** mtype: on, off, locked. */
  readonly point: (id: string) => string
  /** History, kept with -DHISTORY only. */
  readonly wasLocked: (id: string) => string
  readonly restraint: (id: string) => string
  /** `word` is one of the words of the ledger: isolated, still, dead, held, proven, touched ... */
  readonly source: (word: string, id: string) => string
  readonly present: (id: string) => string
  readonly axis: (id: string) => string
  readonly value: (axis: string, value: string) => string
  readonly permit: (id: string) => string
  readonly label: (state: string) => string
}

/** Longer names are cut: copies of copies have ids without bound. */
const longest = 72

function spell(id: string): string {
  return id
    .replaceAll('+', 'plus')
    .replace(/[^A-Za-z0-9_]/g, '_')
    .slice(0, longest)
}

/** Every name bears a prefix that says what it is, so that none is a word of Promela or begins with `end`. */
export function spellingOf(machine: Machine): Spelling {
  const things = distinctNames<string>(
    [...machine.points, ...machine.restraints, ...machine.sources].map(({ id }) => id),
    spell
  )
  const axes = distinctNames<string>(
    machine.axes.map(({ id }) => id),
    spell
  )
  const values = distinctNames<string>(
    machine.axes.flatMap(({ id, values }) => values.map((value) => `${id}:${value.id}`)),
    spell
  )
  const permits = distinctNames<string>(permitsAsked(machine), spell)
  const labels = distinctNames<string>(
    machine.states.map(({ id }) => id),
    spell
  )
  return {
    point: (id) => `point_${nameOf(things, id)}`,
    wasLocked: (id) => `was_locked_${nameOf(things, id)}`,
    restraint: (id) => `restraint_${nameOf(things, id)}`,
    source: (word, id) => `${word}_${nameOf(things, id)}`,
    present: (id) => `present_${nameOf(things, id)}`,
    axis: (id) => `axis_${nameOf(axes, id)}`,
    value: (axis, value) => `value_${nameOf(values, `${axis}:${value}`)}`,
    permit: (id) => `permit_${nameOf(permits, id)}`,
    label: (state) => `at_${nameOf(labels, state)}`
  }
}

/** Sign-offs that some step or the front matter asks for; one that nothing asks for changes nothing. */
export function permitsAsked(machine: Machine): readonly string[] {
  const asked = new Set<string>(machine.leftOn.flatMap(({ permits }) => permits))
  for (const state of machine.states) if ('permits' in state) for (const permit of state.permits) asked.add(permit)
  return [...asked].sort()
}
