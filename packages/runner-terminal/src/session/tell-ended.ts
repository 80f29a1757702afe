import type { RunPort } from '../run-port.js'
import { visible } from '../text/visible.js'
import type { Ended } from './session-options.js'

/**
 * How the session at the terminal ended, in one line for whoever sits there: with what still hangs where the run stays
 * open. A rehearsal that is kept nowhere is over with the terminal.
 */
export function tellEnded(ended: Ended, run: RunPort | null = null): string {
  if (run?.keptNowhere === true && (ended === 'left' || ended === 'input-ended')) return 'The rehearsal is left.'
  const open = ended === 'left' || ended === 'paused' || ended === 'input-ended'
  const locks = open ? (run?.snapshot.locks ?? []) : []
  const hanging = locks.map(({ point, lock, person }) => `${lock} of ${person} on ${point}`).join(', ')
  return visible(`${sentence(ended)}${hanging === '' ? '' : ` Still hanging: ${hanging}.`}`)
}

function sentence(ended: Ended): string {
  switch (ended) {
    case 'finished':
      return 'Finished: the equipment is returned to service.'
    case 'stopped':
      return 'Stopped: locks stay on, the equipment stays out of service.'
    case 'paused':
      return 'Paused: locks stay on. The run goes on exactly here.'
    case 'left':
      return 'The terminal is left. The run stays open and goes on exactly here.'
    case 'input-ended':
      return 'No more was typed. The run stays open and goes on exactly here.'
  }
}
