import { convert, type JudgedDecay, judgeDecay } from '@lockwright/energy'
import { visible } from '../text/visible.js'
import type { DecaySeries, TakenReading } from './decay-series.js'

/**
 * What the readings of a series say, in two visible sentences at most: the gravest, and what follows from it. Empty
 * where there is nothing to be said. It only ever warns and foretells: what is dead is told by a reading alone.
 */
export function tellDecay(series: DecaySeries): readonly string[] {
  const judged = judge(series)
  const says = saidOf(series, judged)
  const [first, ...more] = says
  const last = more.at(-1)
  return first === undefined ? [] : [`${series.label}: ${first}`, ...(last === undefined ? [] : [last])].map(visible)
}

/** Levels and moments (seconds since the first reading) as the library of energies takes them. */
export function judge({ source, unit, siUnit, readings, letOutAt }: DecaySeries): JudgedDecay {
  const begun = Date.parse(readings[0]?.at ?? '')
  const seconds = (at: string): number => (Date.parse(at) - begun) / 1000
  return judgeDecay(source, {
    readings: settled(readings).map(({ at, value }) => ({ seconds: seconds(at), level: inUnit(value, unit, siUnit) })),
    shortedAt: letOutAt.map(seconds)
  })
}

/** Both units measure the same: a series is only begun where they do. */
export function inUnit(value: number, from: string, to: string): number {
  const converted = convert(value, from, to)
  if (!converted.ok) throw new Error(converted.why)
  return converted.value
}

function saidOf({ readings }: DecaySeries, judged: JudgedDecay): readonly string[] {
  const outside = readings.at(-1)?.inside === false
  switch (judged.kind) {
    case 'not-decaying':
      return outside ? [judged.why] : []
    case 'not-computable':
      return outside && readings.length > 1
        ? [`How it falls cannot be computed: ${judged.missing.join(', ')} is not declared.`]
        : []
    case 'judged':
      if (readings.length < 2) return []
      return judged.fit.kind === 'reached' && judged.fit.signs.length === 0 ? [] : judged.says
  }
}

/** A rise by no more than the last digit that was shown is none. */
function settled(readings: readonly TakenReading[]): readonly TakenReading[] {
  const digit = Math.max(0, ...readings.map(({ typed, value }) => lastDigit(typed, value)))
  let lowest = Number.POSITIVE_INFINITY
  return readings.map((reading) => {
    const rise = reading.value - lowest
    // A hair of floating-point excess is no rise.
    if (rise > 0 && rise <= digit * (1 + 1e-9)) return { ...reading, value: lowest }
    lowest = Math.min(lowest, reading.value)
    return reading
  })
}

/** What one step of the last digit typed is worth, in the unit of the value: `0.69 kV` is 690 V to within 10 V. */
function lastDigit(typed: string, value: number): number {
  const [, whole = '', decimals = ''] = /(\d+)(?:[.,](\d+))?/.exec(typed) ?? []
  const number = Number(`${whole}.${decimals}`)
  const scale = number > 0 ? value / number : 1
  return scale * 10 ** -decimals.length
}
