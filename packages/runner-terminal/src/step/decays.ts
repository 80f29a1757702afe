import { type Machine, type Snapshot, stateOf } from '@lockwright/machine'
import { type DecaySeries, decaySeries } from '../decay/decay-series.js'
import { tellDecay } from '../decay/tell-decay.js'
import type { Recorded } from '../run-port.js'

/** How a source falls that is not dead yet: what is said of it, and the readings from which it can be drawn. */
export interface ShownDecay {
  readonly says: readonly string[]
  readonly series: DecaySeries
}

/** Of what the step measures, the series that was read last, as long as it was not within limits or something is odd. */
export function decaysOf(machine: Machine, snapshot: Snapshot, entries: readonly Recorded[]): readonly ShownDecay[] {
  const asked = new Set(
    snapshot.recheck.length > 0
      ? snapshot.recheck
      : stateOf(machine, snapshot.state).inputs.flatMap((input) =>
          input.kind === 'reading' && input.source !== null ? [input.source] : []
        )
  )
  if (asked.size === 0) return []
  const shown = decaySeries(machine, entries)
    .filter(({ source }) => asked.has(source.id))
    .map((series): ShownDecay => ({ says: tellDecay(series), series }))
    .filter(({ says, series }) => says.length > 0 || series.readings.at(-1)?.inside === false)
  const time = ({ series }: ShownDecay): number => Date.parse(series.readings.at(-1)?.at ?? '')
  return shown.toSorted((one, other) => time(other) - time(one)).slice(0, 1)
}
