import { type Faults, oneOf, quoted } from './faults.js'
import { nearest } from './nearest.js'
import type { Place } from './place.js'

/** What shares the one space of names. Axes, their values and qualifications have spaces of their own. */
export type Sort =
  | 'source'
  | 'point'
  | 'restraint'
  | 'role'
  | 'tool'
  | 'part'
  | 'wear'
  | 'section'
  | 'step'
  | 'sign-off'
  | 'choice'

export interface Named {
  readonly name: string
  readonly sort: Sort
  readonly place: Place
  /** What `:ref[name]` prints. */
  readonly label: string
}

const words: Readonly<Record<Sort, string>> = {
  source: 'an energy source',
  point: 'an isolating device',
  restraint: 'a restraint',
  role: 'a role',
  tool: 'a tool',
  part: 'a spare part',
  wear: 'protective equipment',
  section: 'a section',
  step: 'a step',
  'sign-off': 'a sign-off',
  choice: 'a choice'
}

const plainId = /^[\w+-]+$/
const id = /^[\p{L}\p{M}\p{N}_+-]+$/u
const longestId = 100
// Suggestions cost a look at every name; a file with more unknown names than this has another trouble.
const suggestions = 100

/** The names of a file and what bears them. */
export class Names {
  private readonly faults: Faults
  private readonly named = new Map<string, Named>()
  private readonly lost = new Set<string>()
  private suggested = 0
  /** Set where declarations could not be read: then a name that is not found is no fault of its own. */
  incomplete = false

  constructor(faults: Faults) {
    this.faults = faults
  }

  /** Checks the spelling of a name, whatever it names. */
  spelled(name: string, place: Place): boolean {
    if ((plainId.test(name) || id.test(name)) && name.length <= longestId) return true
    this.faults.add(
      'bad-id',
      place,
      `${quoted(name)} is not a name: ${name.length > longestId ? 'it is too long' : 'it holds other signs than letters, digits, `-`, `_` and `+`'}.`,
      'Spell it with letters, digits, `-`, `_` and `+`.'
    )
    return false
  }

  declare(named: Named): void {
    if (named.sort !== 'section' && !this.spelled(named.name, named.place)) return
    const other = this.named.get(named.name)
    if (other === undefined) {
      this.named.set(named.name, named)
      return
    }
    this.faults.add(
      'duplicate-name',
      named.place,
      `${quoted(named.name)} already names ${words[other.sort]} on line ${other.place.start.line}.`,
      named.sort === 'section' ? 'Give the section another title.' : 'Give one of the two another name.',
      [{ place: other.place, note: `Here ${quoted(named.name)} is ${words[other.sort]}.` }]
    )
  }

  /** Notes a name whose declaration was broken, so that its uses are no faults of their own. */
  lose(name: string): void {
    this.lost.add(name)
  }

  get(name: string): Named | undefined {
    return this.named.get(name)
  }

  /** What bears a name, if it is of one of these sorts; else it is reported, with the nearest names that are. */
  find(name: string, sorts: readonly Sort[], place: Place): Named | undefined {
    const found = this.named.get(name)
    if (found !== undefined && sorts.includes(found.sort)) return found
    if (this.lost.has(name)) return undefined
    if (found === undefined) {
      if (!this.incomplete) this.reportUnknown(name, sorts, place)
      return undefined
    }
    const wanted = wantedOf(sorts)
    this.faults.add(
      'wrong-sort-of-name',
      place,
      `${quoted(name)} is ${words[found.sort]}, not ${wanted}.`,
      this.suggest(name, sorts) ?? `Name ${wanted}.`,
      [{ place: found.place, note: `Here ${quoted(name)} is ${words[found.sort]}.` }]
    )
    return undefined
  }

  private reportUnknown(name: string, sorts: readonly Sort[], place: Place): void {
    const wanted = sorts.length > 4 ? '.' : `: ${wantedOf(sorts)} is wanted.`
    const mend = this.suggest(name, sorts) ?? 'Correct the name, or declare it.'
    this.faults.add('unknown-name', place, `Nothing here is called ${quoted(name)}${wanted}`, mend)
  }

  /** The nearest names of these sorts, or all of them where they are few. */
  private suggest(name: string, sorts: readonly Sort[]): string | undefined {
    this.suggested += 1
    if (this.suggested > suggestions) return undefined
    const candidates = [...this.named.values()].filter((named) => sorts.includes(named.sort)).map((named) => named.name)
    const near = nearest(name, candidates)
    if (near.length > 0) return `Write ${oneOf(near)}.`
    return candidates.length > 0 && candidates.length <= 4 ? `There is ${oneOf(candidates)}.` : undefined
  }
}

function wantedOf(sorts: readonly Sort[]): string {
  return sorts.map((sort) => words[sort]).join(' or ')
}

/** For one of a few fixed words: a mend that names the nearest, or all of them. */
export function mendWord(word: string, words: readonly string[]): string {
  const near = nearest(word, words)
  return near.length > 0 ? `Write ${oneOf(near)}.` : `There is ${oneOf(words)}.`
}

/** For values that have a space of their own: a mend that names the nearest, or all where they are few. */
export function mendName(name: string, candidates: readonly string[]): string {
  const near = nearest(name, candidates)
  if (near.length > 0) return `Write ${oneOf(near)}.`
  return candidates.length === 0 ? 'Take it out, or declare it.' : `There is ${oneOf(candidates.slice(0, 8))}.`
}
