import { advance, type Event } from '@lockwright/machine'
import { askedNext } from '../step/asked.js'
import { clearDesk } from '../step/desk.js'
import { interpret } from '../step/interpret.js'
import type { Sitting } from '../step/interpreted.js'

/**
 * The one key that answers at once, or null. Where a value is typed next, Enter has to part the two: of `300 V` typed
 * too early, the 3 must not confirm and the rest must not count as a reading of 0 V.
 */
export function keyThatAnswers(key: string | null, sitting: Sitting, now: string): string | null {
  if (key === null) return null
  const { machine, snapshot, desk } = sitting
  const meant = interpret(key, sitting)
  switch (meant.kind) {
    case 'desk':
      return meant.desk.question !== null || takesValue(askedNext(machine, snapshot, meant.desk).kind) ? null : key
    case 'event': {
      const taken = advance(machine, snapshot, { ...meant.event, at: now } as Event)
      if (!taken.ok) return key
      const after =
        taken.snapshot.state === snapshot.state ? { ...desk, takenUp: false } : clearDesk(taken.snapshot.state)
      return takesValue(askedNext(machine, taken.snapshot, after).kind) ? null : key
    }
    default:
      return key
  }
}

function takesValue(kind: ReturnType<typeof askedNext>['kind']): boolean {
  return kind === 'reading' || kind === 'lock' || kind === 'unlock' || kind === 'prove-again' || kind === 'choose'
}
