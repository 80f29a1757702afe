import type { Span } from '@lockwright/machine'
import type { Change, Topic } from './comparison.js'
import { type Facet, type FacetValue, facetChanges, type More, tendencyOf } from './facet.js'
import { pairUp } from './pair-up.js'

/** Something that a revision holds: a declaration, or what a step does to one thing. */
export interface Entry {
  readonly topic: Topic
  /** By what the same thing of the other revision is known, the surest first; null: not by this. */
  readonly keys: readonly (string | null)[]
  /** As a sentence begins with it: `` Source `mains` ``. */
  readonly name: string
  readonly span: Span | null
  /** What it means that there is one more of these. */
  readonly more: More
  readonly why: Facet['why']
  readonly facets: ReadonlyMap<string, Facet>
}

export interface ComparedEntries<Some extends Entry> {
  readonly changes: readonly Change[]
  readonly pairs: readonly { readonly old: Some; readonly next: Some }[]
}

/** What one revision holds more, less or otherwise than the other. */
export function compareEntries<Some extends Entry>(old: readonly Some[], next: readonly Some[]): ComparedEntries<Some> {
  const phases = Math.max(0, ...[...old, ...next].map(({ keys }) => keys.length))
  const { pairs, lost, gained } = pairUp(
    old,
    next,
    Array.from({ length: phases }, (_, phase) => (entry: Some) => entry.keys[phase] ?? null)
  )
  return {
    pairs,
    changes: [
      ...lost.map((entry) => whole(entry, -1)),
      ...gained.map((entry) => whole(entry, 1)),
      ...pairs.flatMap(({ old: before, next: now }) => within(before, now))
    ]
  }
}

function whole({ topic, name, span, more, why }: Entry, direction: 1 | -1): Change {
  return {
    tendency: tendencyOf(more, direction),
    topic,
    what: direction === 1 ? `${name} is new.` : `${name} is gone.`,
    why: direction === 1 ? why.more : why.less,
    old: direction === 1 ? null : span,
    next: direction === 1 ? span : null,
    way: []
  }
}

function within(old: Entry, next: Entry): readonly Change[] {
  const places = { topic: next.topic, old: old.span, next: next.span, way: [] }
  const names = [...new Set([...old.facets.keys(), ...next.facets.keys()])]
  return names.flatMap((name): readonly Change[] => {
    const before = old.facets.get(name)
    const now = next.facets.get(name)
    if (before === undefined || now === undefined) {
      const what = `${next.name}, ${(now ?? before)?.name}: ${told(before)} before, ${told(now)} now.`
      return [
        {
          ...places,
          tendency: 'neutral',
          what,
          why: 'It was not given in both, so the two cannot be set against each other.'
        }
      ]
    }
    return facetChanges(before, now).map((change) => ({ ...places, ...change, what: `${next.name}, ${change.what}` }))
  })
}

function told(facet: Facet | undefined): string {
  const value: FacetValue | undefined = facet?.value
  if (value === undefined) return 'not given'
  return value.is === 'set' ? [...value.members.values()].join(', ') : value.told
}
