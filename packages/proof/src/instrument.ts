import { type Quantity, safeBelow } from '@lockwright/energy'
import type { SourceKind } from '@lockwright/language'
import type { MachineItem, MachineSource } from '@lockwright/machine'

/** A level that an instrument has to be able to show. */
export interface Level {
  /** As the author wrote it, or what it was worked out to be. */
  readonly written: string
  readonly dimension: Quantity['dimension']
  readonly reference: Quantity['reference'] | undefined
  readonly si: number
}

/** What an instrument for a source of this kind `measures`; null where the kind does not settle it. */
export function measuresOf(kind: SourceKind): readonly string[] | null {
  switch (kind) {
    case 'electrical':
    case 'capacitor':
    case 'battery':
      return ['voltage']
    case 'magnet':
      return ['current']
    case 'rotating':
      return ['speed']
    case 'gas':
    case 'liquid':
      return ['pressure']
    case 'thermal':
      return ['temperature']
    case 'gravity':
      return ['height', 'length']
    case 'spring':
      return ['length', 'force']
    case 'other':
      return null
  }
}

/** The level that the source has to be below; undefined where none is declared and its kind has none. */
export function limitOf(source: MachineSource): Level | undefined {
  const limit = safeBelow(source)
  return limit === undefined ? undefined : levelOf(limit, limit.si)
}

/** What the source holds in the worst case, in the dimension of its limit; undefined where nothing declared says it. */
export function heldIn(source: MachineSource, limit: Level): Level | undefined {
  const held = Object.entries(source.quantities).find(
    ([name, { dimension }]) => heldNames.has(name) && dimension === limit.dimension
  )?.[1]
  if (held !== undefined) return levelOf(held, held.interval.high)
  const { rate, deflection, preload } = source.quantities
  if (limit.dimension !== 'force' || rate === undefined || deflection === undefined) return undefined
  const newtons = rate.interval.high * deflection.interval.high + (preload?.interval.high ?? 0)
  return { written: `${Math.ceil(newtons)} N`, dimension: 'force', reference: undefined, si: newtons }
}

/** The parameters that say how much a source holds, rather than how it lets go of it. */
const heldNames: ReadonlySet<string> = new Set([
  'voltage',
  'current',
  'speed',
  'height',
  'deflection',
  'pressure',
  'temperature'
])

function levelOf({ written, dimension, reference }: Quantity, si: number): Level {
  return { written, dimension, reference, si }
}

/** Whether the instrument's range holds the level. Gauge and absolute pressure are not compared: ambient is not known. */
export function shows({ range }: Pick<MachineItem, 'range'>, level: Level): boolean {
  return (
    range !== null &&
    range.low.dimension === level.dimension &&
    range.low.reference === level.reference &&
    range.low.si <= level.si &&
    level.si <= range.high.si
  )
}
