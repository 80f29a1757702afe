import type { Ended } from './session.js'

/** How the session at the terminal ended, in one sentence for whoever sits there. */
export function tellEnded(ended: Ended): string {
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
