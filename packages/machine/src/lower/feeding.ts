import { worstCaseVolts } from '@lockwright/energy'
import type { FrontMatter, Source, SourceId } from '@lockwright/language'

/** Which sources a source charges, directly and through others. */
export interface Feeding {
  /** The sources named and everything that they feed, in the order of the declarations. */
  readonly withFed: (named: readonly SourceId[]) => readonly SourceId[]
  /**
   * As `withFed`, but only over links whose feeder exists on every generation on which the source that it feeds exists:
   * what is fed on one generation alone does not count as fed on another.
   */
  readonly withSurelyFed: (named: readonly SourceId[]) => readonly SourceId[]
}

type Link = (feeder: Source, fed: Source) => boolean

export function feedingOf(head: FrontMatter): Feeding {
  const byId = new Map(head.sources.map((source) => [source.id, source]))
  const over = (counts: Link, named: readonly SourceId[]): readonly SourceId[] => {
    const reached = new Set(named)
    const links = (id: SourceId, fed: Source): boolean => {
      const feeder = byId.get(id)
      return feeder !== undefined && reached.has(id) && counts(feeder, fed)
    }
    for (let grew = true; grew; ) {
      grew = false
      for (const source of head.sources) {
        if (!reached.has(source.id) && source.fedBy.some((feeder) => links(feeder, source))) {
          reached.add(source.id)
          grew = true
        }
      }
    }
    return head.sources.map(({ id }) => id).filter((id) => reached.has(id))
  }
  return { withFed: (named) => over(() => true, named), withSurelyFed: (named) => over(existsWherever, named) }
}

/** Whether the feeder exists on every generation on which the source that it feeds exists. */
function existsWherever(feeder: Source, fed: Source): boolean {
  return feeder.only.every(({ axis, values }) =>
    fed.only.some((own) => own.axis === axis && own.values.every((value) => values.includes(value)))
  )
}

/** Electrical work: kind electrical, capacitor or battery with a worst-case voltage above 50 V. */
export function electricalWork(source: Source): boolean {
  switch (source.kind) {
    case 'electrical':
    case 'capacitor':
    case 'battery':
      return source.quantities.voltage === undefined || worstCaseVolts(source.quantities.voltage) > 50
    case 'magnet':
    case 'rotating':
    case 'gravity':
    case 'spring':
    case 'gas':
    case 'liquid':
    case 'thermal':
    case 'other':
      return false
  }
}
