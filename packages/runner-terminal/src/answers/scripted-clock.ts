import type { Clock } from '@lockwright/records'

/** A clock that stands until it is set; it never runs back. */
export interface ScriptedClock extends Clock {
  /** False where that would be back: then it stands. */
  readonly set: (at: string) => boolean
}

/** For rehearsals and sheets: the times are those of the answers. `start` is RFC 3339. */
export function scriptedClock(start: string): ScriptedClock {
  const origin = Date.parse(start)
  let time = origin
  return {
    now: () => ({ at: new Date(time).toISOString(), elapsed: time - origin }),
    set: (at) => {
      const wanted = Date.parse(at)
      if (!(wanted >= time)) return false
      time = wanted
      return true
    }
  }
}
