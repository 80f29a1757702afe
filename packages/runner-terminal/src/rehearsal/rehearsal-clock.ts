/** The clock of a rehearsal: it can be set on, so that nobody waits for a machine that is not there. Never back. */
export interface RehearsalClock {
  /** RFC 3339. */
  readonly now: () => string
  readonly skipTo: (at: string) => void
  /** Something was answered just now. */
  readonly afterAnswer: () => void
}

/** The clock of the computer, set on by what was skipped. */
export function runningClock(computer: () => string): RehearsalClock {
  let setOn = 0
  const time = (): number => Date.parse(computer()) + setOn
  return {
    now: () => new Date(time()).toISOString(),
    skipTo: (at) => {
      setOn += Math.max(0, Date.parse(at) - time())
    },
    afterAnswer: () => undefined
  }
}

/**
 * A clock that stands at `start` (RFC 3339), and moves on by `pace` seconds with each answer: the same rehearsal twice
 * has the same times.
 */
export function standingClock(start: string, pace: number): RehearsalClock {
  let time = Date.parse(start)
  return {
    now: () => new Date(time).toISOString(),
    skipTo: (at) => {
      time = Math.max(time, Date.parse(at))
    },
    afterAnswer: () => {
      time += pace * 1000
    }
  }
}
