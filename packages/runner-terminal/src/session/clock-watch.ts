import { formatDuration } from '@lockwright/energy'

/** Keeps the wall clock honest while a session is open: a clock that is set on makes no wait shorter. */
export interface ClockWatch {
  /** Milliseconds by which the wall clock was set on (or, below zero, back) since this moment of it was first seen. */
  readonly setOnSince: (startedAt: string) => number
  readonly warnings: () => readonly string[]
}

/** Clocks of a computer drift and are put right by a network by less than this. */
const slackMilliseconds = 5000

/**
 * `elapsed`: milliseconds of a clock that nobody can set and that counts on while the computer sleeps; undefined where
 * there is none, as with the clock of a rehearsal.
 */
export function clockWatch(now: () => string, elapsed: (() => number) | undefined): ClockWatch {
  if (elapsed === undefined) return { setOnSince: () => 0, warnings: () => [] }
  const drift = (): number => Date.parse(now()) - elapsed()
  const atFirst = drift()
  const seen = new Map<string, number>()
  const jump = (since: number): number => {
    const by = drift() - since
    return Math.abs(by) < slackMilliseconds ? 0 : by
  }
  return {
    setOnSince: (startedAt) => {
      const known = seen.get(startedAt)
      if (known !== undefined) return jump(known)
      seen.set(startedAt, drift())
      return 0
    },
    warnings: () => {
      const by = jump(atFirst)
      if (by === 0) return []
      const size = formatDuration(Math.round(Math.abs(by) / 1000))
      return [
        `The clock of this computer was set ${by > 0 ? 'on' : 'back'} by ${size} while this run was open: the times in ` +
          'the record jump there. Note why, with `note`.' +
          (by > 0 ? ' A wait goes on for as long as it takes.' : ' A wait takes longer by as much.')
      ]
    }
  }
}
