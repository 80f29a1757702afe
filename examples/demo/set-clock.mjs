/**
 * Loaded before the command (`node --import`), it sets the clock of that one process to DEMO_CLOCK, as if the computer's
 * own had been set. A demo tells of several days and runs in a minute: what was issued on one day is worked with on the next.
 */
const ahead = Date.parse(process.env['DEMO_CLOCK'] ?? '') - Date.now()
const RealDate = Date

globalThis.Date = class extends RealDate {
  constructor(...given) {
    super(...(given.length === 0 ? [RealDate.now() + ahead] : given))
  }

  static now() {
    return RealDate.now() + ahead
  }
}
