import type { Machine, Snapshot } from '@lockwright/machine'
import { energiesOf } from '../step/energies.js'
import type { Page } from '../step/screen.js'
import { visible } from '../text/visible.js'

/** Every source, every lock and everybody under the lockout. */
export function standPage(machine: Machine, snapshot: Snapshot): Page {
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
        : visible(`Under the lockout: ${snapshot.crew.join(', ')}`)
    ]
  }
}
