import { worstCaseVolts } from '@lockwright/energy'
import type { FrontMatter, Source, SourceId } from '@lockwright/language'

/** Which sources a source charges, directly and through others. */
export interface Feeding {
  /** The sources named and everything that they feed, in the order of the declarations. */
  readonly withFed: (named: readonly SourceId[]) => readonly SourceId[]
}

export function feedingOf(head: FrontMatter): Feeding {
  const fed = (named: readonly SourceId[]): readonly SourceId[] => {
    const reached = new Set(named)
    for (let grew = true; grew; ) {
      grew = false
      for (const { id, fedBy } of head.sources) {
        if (!reached.has(id) && fedBy.some((feeder) => reached.has(feeder))) {
          reached.add(id)
          grew = true
        }
      }
    }
    return head.sources.map(({ id }) => id).filter((id) => reached.has(id))
  }
  return { withFed: fed }
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
