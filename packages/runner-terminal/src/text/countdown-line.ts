import { formatDuration } from '@lockwright/energy'
import type { Countdown } from '../step/screen.js'
import { clockTime } from './clock-time.js'

/** `Wait until 14:32:10: 5 min to go`. `now`: RFC 3339. */
export function countdownLine({ what, until }: Countdown, now: string): string {
  const left = Math.max(0, Date.parse(until) - Date.parse(now))
  return `${what} ${clockTime(until)}: ${formatDuration(Math.ceil(left / 1000))} to go`
}
