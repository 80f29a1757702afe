/** The only source of time in this package. */
export interface Clock {
  /**
   * `at`: wall clock, RFC 3339 in UTC with milliseconds, `2026-03-02T08:00:00.000Z`.
   * `elapsed`: milliseconds of a clock that never runs back; its zero is of no account.
   */
  now(): { readonly at: string; readonly elapsed: number }
}

/** The clocks of this computer. */
export const systemClock: Clock = {
  now: () => ({ at: new Date().toISOString(), elapsed: Math.floor(performance.now()) })
}
