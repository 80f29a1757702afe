import type { Machine, Snapshot } from '@lockwright/machine'
import { decayPlot } from '../decay/decay-plot.js'
import { type DecaySeries, decaySeries } from '../decay/decay-series.js'
import { tellDecay } from '../decay/tell-decay.js'
import type { Recorded } from '../run-port.js'
import { energiesOf } from '../step/energies.js'
import type { Page } from '../step/screen.js'
import { clockTime } from '../text/clock-time.js'
import { visible } from '../text/visible.js'

/** Every source, every lock and everybody under the lockout, and how what still holds energy falls. */
export function standPage(machine: Machine, snapshot: Snapshot, entries: readonly Recorded[]): Page {
  return {
    title: 'Sources, locks and crew',
    lines: [
      ...energiesOf(machine, snapshot).map(({ source, shape, word, more }) =>
        more === '' ? `${shape} ${source}: ${word}` : `${shape} ${source}: ${word} (${more})`
      ),
      ...(snapshot.locks.length === 0 ? ['No lock hangs.'] : []),
      ...snapshot.locks.map(({ point, lock, person }) => visible(`${point}: lock ${lock} of ${person}`)),
      snapshot.crew.length === 0
        ? 'Nobody works under the lockout.'
        : visible(`Under the lockout: ${snapshot.crew.join(', ')}`),
      ...decaySeries(machine, entries).flatMap(decayLines)
    ]
  }
}

function decayLines(series: DecaySeries): readonly string[] {
  const says = tellDecay(series)
  if (says.length === 0 && series.readings.every(({ inside }) => inside)) return []
  const taken = series.readings.map(({ typed, at }) => `${typed} at ${clockTime(at)}`).join(', ')
  return ['', visible(`${series.label} read: ${taken}`), ...says, ...decayPlot(series)]
}
