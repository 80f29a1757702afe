import { type Machine, type State, skeletonOf } from '@lockwright/machine'

/** Where a translation first does something else than what it translates. */
export interface SkeletonDifference {
  /** In words, for both files: what the one has, and what the other has in its place. */
  readonly what: string
  /** Lines in the two files, from 1; null where the difference is in no one place. */
  readonly line: number | null
  readonly otherLine: number | null
}

/** Null where both are the same machine but for their texts; else the first difference in reading order. */
export function firstDifference(machine: Machine, other: Machine): SkeletonDifference | null {
  if (skeletonOf(machine) === skeletonOf(other)) return null
  const head = headDifference(machine, other)
  if (head !== null) return head
  const likened = withIdsOf(other, machine)
  const count = Math.min(machine.states.length, likened.states.length)
  for (let at = 0; at < count; at += 1) {
    const [own, its] = [machine.states[at], likened.states[at]]
    if (own === undefined || its === undefined || alike(machine, own, its)) continue
    const keys = Object.keys(own).filter(
      (key) => !alike(machine, own, { ...own, [key]: its[key as keyof State] } as State)
    )
    const where = keys.length === 0 ? '' : `; they differ in ${keys.map((key) => `\`${key}\``).join(', ')}`
    const shown = other.states[at]
    return {
      what: `where the one has \`${own.title}\`, the other has \`${shown?.title ?? its.title}\`${where}`,
      line: own.span.line,
      otherLine: its.span.line
    }
  }
  const [longer, what] = machine.states.length > count ? [machine, 'the one'] : [other, 'the other']
  const more = longer.states[count]
  if (more === undefined) return { what: 'the sections do not begin at the same steps', line: null, otherLine: null }
  return {
    what: `${what} goes on with \`${more.title}\`, and its counterpart has nothing in its place`,
    line: longer === machine ? more.span.line : null,
    otherLine: longer === machine ? null : more.span.line
  }
}

/** What is declared: each part put in the place of the other's, to see whether it changes anything. */
function headDifference(machine: Machine, other: Machine): SkeletonDifference | null {
  const bare: Machine = { ...machine, states: [], sections: [] }
  const skeleton = skeletonOf(bare)
  for (const key of Object.keys(bare) as (keyof Machine)[]) {
    if (key === 'states' || key === 'sections' || key === 'start' || key === 'leftOn') continue
    if (skeletonOf({ ...bare, [key]: other[key] } as Machine) !== skeleton) {
      return { what: `\`${key}\` of the front matter is not the same`, line: null, otherLine: null }
    }
  }
  return null
}

function alike(machine: Machine, one: State, other: State): boolean {
  const alone = (state: State): string => skeletonOf({ ...machine, sections: [], states: [state] })
  return alone(one) === alone(other)
}

/** Made ids follow the headings, which a translation changes: the other's as ours, by their places. */
function withIdsOf(other: Machine, machine: Machine): Machine {
  const renamed = new Map<string, string>()
  other.states.forEach((state, at) => {
    const own = machine.states[at]
    if (own === undefined) return
    if (!renamed.has(state.step)) renamed.set(state.step, own.step)
    renamed.set(state.id, own.id)
  })
  other.sections.forEach((section, at) => {
    const own = machine.sections[at]
    if (own !== undefined) renamed.set(section.id, own.id)
  })
  const rename = (value: unknown): unknown => {
    if (typeof value === 'string') return renamed.get(value) ?? value
    if (Array.isArray(value)) return value.map(rename)
    if (value === null || typeof value !== 'object') return value
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, rename(inner)]))
  }
  return rename(other) as Machine
}
