import { uptime } from 'node:os'
import { bootId } from './boot-id.js'

/** The only source of time in this package. */
export interface Clock {
  /**
   * `at`: wall clock, RFC 3339 in UTC with milliseconds, `2026-03-02T08:00:00.000Z`.
   * `elapsed`: milliseconds of a clock that never runs back, that nobody can set and that counts on while the computer
   * sleeps; its zero is of no account.
   */
  now(): { readonly at: string; readonly elapsed: number }
  /** Two clocks of the same mark count `elapsed` from the same zero; absent or empty: that cannot be told. */
  readonly zero?: string
}

/** The clocks of this computer. The time since it was started counts on in its sleep, that of a process does not. */
export const systemClock: Clock = {
  now: () => ({ at: new Date().toISOString(), elapsed: Math.floor(uptime() * 1000) }),
  zero: bootId()
}
