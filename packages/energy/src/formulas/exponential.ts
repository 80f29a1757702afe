/**
 * Seconds in which an exponential decay towards `floor` falls from one level to another: 0 where it is there already,
 * Infinity where it never gets there.
 */
export function timeToReach(timeConstant: number, from: number, to: number, floor = 0): number {
  if (from <= to) return 0
  if (to <= floor) return Number.POSITIVE_INFINITY
  return timeConstant * Math.log((from - floor) / (to - floor))
}

/** Level that is left after so many seconds. */
export function levelAfter(seconds: number, timeConstant: number, from: number, floor = 0): number {
  return floor + (from - floor) * Math.exp(-seconds / timeConstant)
}
