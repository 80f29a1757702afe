import type { Tendency } from './comparison.js'

/** What more of something means for those who rely on it. */
export type More = 'stricter' | 'looser' | 'neither'

/** One thing that can be compared in two revisions of the same step or declaration. */
export interface Facet {
  /** As in `the wait`, `its devices`. */
  readonly name: string
  readonly more: More
  /** Why more of it, and why less of it, is marked as it is. */
  readonly why: { readonly more: string; readonly less: string }
  readonly value: FacetValue
}

export type FacetValue =
  /** Comparable only on the same scale: a dimension, a unit. */
  | { readonly is: 'amount'; readonly amount: number; readonly scale: string; readonly told: string }
  /** Members by the name that both revisions share, each as it is shown. */
  | { readonly is: 'set'; readonly members: ReadonlyMap<string, string> }
  /** More where the qualifications hold all of the other's and one besides. */
  | {
      readonly is: 'role'
      readonly id: string | null
      readonly holds: ReadonlySet<string>
      readonly told: string
    }

/** What changed of a facet: the words of it and its mark. */
export interface FacetChange {
  readonly what: string
  readonly why: string
  readonly tendency: Tendency
}

const unlike = 'The two cannot be set against each other; someone who knows the equipment has to.'

export function facetChanges(old: Facet, next: Facet): readonly FacetChange[] {
  const one = old.value
  const other = next.value
  if (one.is === 'amount' && other.is === 'amount') return amountChanges(old, one, next, other)
  if (one.is === 'set' && other.is === 'set') return setChanges(old, one.members, other.members)
  if (one.is === 'role' && other.is === 'role') return roleChanges(old, one, other)
  throw new Error('facets of one name are of one sort')
}

/** Which way it leans that there is more, or less, of what is asked. */
export function tendencyOf(more: More, direction: 1 | -1): Tendency {
  if (more === 'neither') return 'neutral'
  return (more === 'stricter') === (direction === 1) ? 'tightening' : 'loosening'
}

type Amount = Extract<FacetValue, { is: 'amount' }>
type RoleValue = Extract<FacetValue, { is: 'role' }>

function amountChanges({ name, more, why }: Facet, one: Amount, next: Facet, other: Amount): readonly FacetChange[] {
  const what = `${name}: ${one.told} before, ${other.told} now.`
  if (one.scale !== other.scale || more !== next.more) return [{ what, why: unlike, tendency: 'neutral' }]
  if (one.amount === other.amount) return []
  const direction = other.amount > one.amount ? 1 : -1
  return [{ what, why: direction === 1 ? why.more : why.less, tendency: tendencyOf(more, direction) }]
}

function setChanges(
  { name, more, why }: Facet,
  old: ReadonlyMap<string, string>,
  next: ReadonlyMap<string, string>
): readonly FacetChange[] {
  const gained = [...next].filter(([key]) => !old.has(key))
  const lost = [...old].filter(([key]) => !next.has(key))
  return [
    ...lost.map(
      ([, told]): FacetChange => ({
        what: `${name}: ${told} no longer.`,
        why: why.less,
        tendency: tendencyOf(more, -1)
      })
    ),
    ...gained.map(
      ([, told]): FacetChange => ({ what: `${name}: ${told} as well.`, why: why.more, tendency: tendencyOf(more, 1) })
    )
  ]
}

function roleChanges({ name, more, why }: Facet, one: RoleValue, other: RoleValue): readonly FacetChange[] {
  if (one.id === other.id) return []
  const what = `${name}: ${one.told} before, ${other.told} now.`
  const within = (some: ReadonlySet<string>, all: ReadonlySet<string>): boolean =>
    [...some].every((member) => all.has(member))
  const wider = other.id !== null && within(one.holds, other.holds)
  const narrower = one.id !== null && within(other.holds, one.holds)
  if (one.id === null || (wider && !narrower)) return [{ what, why: why.more, tendency: tendencyOf(more, 1) }]
  if (other.id === null || (narrower && !wider)) return [{ what, why: why.less, tendency: tendencyOf(more, -1) }]
  return [{ what, why: unlike, tendency: 'neutral' }]
}

/** An amount that is there or not. */
export function flagFacet(name: string, on: boolean, more: More, why: Facet['why']): Facet {
  return { name, more, why, value: { is: 'amount', amount: on ? 1 : 0, scale: '', told: on ? 'yes' : 'no' } }
}

export function amountFacet(
  name: string,
  amount: number,
  told: string,
  more: More,
  why: Facet['why'],
  scale = ''
): Facet {
  return { name, more, why, value: { is: 'amount', amount, scale, told } }
}

export function setFacet(name: string, members: ReadonlyMap<string, string>, more: More, why: Facet['why']): Facet {
  return { name, more, why, value: { is: 'set', members } }
}

/** Something that is one or the other, with nothing to say which of them is stricter; `key` where words differ for the same. */
export function wordFacet(name: string, told: string, key = told): Facet {
  const value = { is: 'amount', amount: 0, scale: key, told } as const
  return { name, more: 'neither', why: { more: unlike, less: unlike }, value }
}
