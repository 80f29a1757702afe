import { branchesOf } from '../branches-of.js'
import { quoted } from '../faults.js'
import type { SectionId } from '../ids.js'
import type { Place } from '../place.js'
import type { Block } from '../procedure.js'
import type { BodyContext } from './context.js'

interface Repeat {
  /** The sections that the place is in, from the outermost in. */
  readonly inside: readonly SectionId[]
  readonly of: SectionId
  readonly place: Place
}

/** A section that repeats itself, directly or through others, never ends. */
export function checkRepeats(body: readonly Block[], context: BodyContext): void {
  if (context.tooManySteps) return
  const repeats = findRepeats(body)
  const leads = new Map<SectionId, Set<SectionId>>()
  for (const { inside, of } of repeats) {
    for (const section of inside) leads.set(section, (leads.get(section) ?? new Set()).add(of))
  }
  const reached = new Map<SectionId, ReadonlySet<SectionId>>()
  for (const { inside, of, place } of repeats) {
    const from = reached.get(of) ?? reachedFrom(of, leads)
    reached.set(of, from)
    const own = inside.find((section) => from.has(section))
    if (own === undefined) continue
    const what =
      own === of
        ? `The section ${quoted(of)} would be repeated inside itself.`
        : `The section ${quoted(of)} would be repeated here, and it leads back to the section ${quoted(own)}.`
    context.faults.add(
      'circular-repeat',
      place,
      what,
      'Move what has to be repeated to a section of its own that repeats nothing.'
    )
  }
}

function reachedFrom(start: SectionId, leads: ReadonlyMap<SectionId, ReadonlySet<SectionId>>): ReadonlySet<SectionId> {
  const seen = new Set([start])
  // A set goes on to what is added while it is walked.
  for (const section of seen) {
    for (const next of leads.get(section) ?? []) seen.add(next)
  }
  return seen
}

function findRepeats(body: readonly Block[]): readonly Repeat[] {
  const found: Repeat[] = []
  const open: { readonly id: SectionId; readonly level: number }[] = []
  for (const block of body) {
    if (block.kind === 'heading') {
      while ((open.at(-1)?.level ?? 0) >= block.level) open.pop()
      open.push({ id: block.id, level: block.level })
    }
    collect(
      block,
      open.map(({ id }) => id),
      found
    )
  }
  return found
}

function collect(block: Block, inside: readonly SectionId[], found: Repeat[]): void {
  if (block.kind === 'repeat') found.push({ inside, of: block.of, place: block.place })
  if (block.kind === 'remedies') {
    found.push({ inside, of: block.retest, place: block.place }, { inside, of: block.relock, place: block.place })
  }
  for (const branch of branchesOf(block)) {
    for (const inner of branch.body) collect(inner, inside, found)
  }
}
