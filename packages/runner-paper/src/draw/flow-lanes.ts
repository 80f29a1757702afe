/** A line that leaves one height of the map and comes in at another. */
export interface Jump {
  readonly from: number
  readonly to: number
}

/**
 * In which lane each jump runs, 0 the nearest to the steps: jumps that share any height run in lanes of their own, and the
 * shorter ones inside.
 */
export function flowLanes(jumps: readonly Jump[]): readonly number[] {
  const lanes: number[] = jumps.map(() => 0)
  const taken: { top: number; bottom: number; to: number }[][] = []
  const order = jumps
    .map((jump, index) => ({
      index,
      to: jump.to,
      top: Math.min(jump.from, jump.to),
      bottom: Math.max(jump.from, jump.to)
    }))
    .sort((one, other) => one.bottom - one.top - (other.bottom - other.top) || one.top - other.top)
  for (const { index, to, top, bottom } of order) {
    // Lines that come in at the same step may run together.
    const free = taken.findIndex((lane) =>
      lane.every((each) => each.to === to || each.bottom < top || each.top > bottom)
    )
    const lane = free === -1 ? taken.length : free
    taken[lane] = [...(taken[lane] ?? []), { top, bottom, to }]
    lanes[index] = lane
  }
  return lanes
}
