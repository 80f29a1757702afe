import { convert, type Quantity } from '@lockwright/energy'
import type { Limits } from '@lockwright/machine'
import type { Instrument } from './instrument.js'

/**
 * How far the true value may lie from what the instrument showed, in `unit`; null where no accuracy is declared, or
 * where it is declared in units that say nothing of this reading.
 */
export function readingBound({ accuracy, range }: Instrument, value: number, unit: string): number | null {
  if (accuracy === null) return null
  const { ofReading, ofRange, plus } = accuracy
  const span = range === null ? 0 : spanIn(range.low, range.high, unit)
  const fixed = plus === null ? 0 : spanIn({ ...plus, value: 0 }, plus, unit)
  if (span === null || fixed === null) return null
  return (Math.abs(value) * ofReading + span * ofRange) / 100 + fixed
}

/**
 * Whether a reading that lies below its limit may still stand for a value that does not. A limit of 0 asks for
 * standstill, and is judged by the reading alone: no instrument shows less than its own error.
 */
export function mayReachLimit(instrument: Instrument, { below }: Limits, value: number, unit: string): boolean {
  if (below === null || below === 0 || Math.abs(value) >= below) return false
  const bound = readingBound(instrument, value, unit)
  return bound !== null && Math.abs(value) + bound >= below
}

/** From one value to another in a unit: a difference, so that degrees keep their size and lose their zero. */
function spanIn(low: Measure, high: Measure, unit: string): number | null {
  const [from, to] = [convert(low.value, low.unit, unit), convert(high.value, high.unit, unit)]
  return from.ok && to.ok ? to.value - from.value : null
}

type Measure = Pick<Quantity, 'value' | 'unit'>
