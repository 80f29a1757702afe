import { formatDuration } from '@lockwright/energy'
import type { Countdown, Screen, ShownNotice } from '../step/screen.js'
import { bar } from '../text/bar.js'
import { clockTime } from '../text/clock-time.js'
import { wrap } from '../text/wrap.js'

/** How a line is set apart; what it says never hangs on it. */
export type Tone = 'plain' | 'strong' | 'faint' | 'alarm'

export interface Row {
  readonly text: string
  readonly tone: Tone
}

export function row(text: string, tone: Tone): Row {
  return { text, tone }
}

/**
 * The step as lines of a width: a clock that runs first of all, so that it is in sight however long the step is, then
 * the notices, how it is done, the boxes and what was answered.
 */
export function mainLines(screen: Screen, width: number, now: string): readonly Row[] {
  const plain = (text: string, indent = ''): readonly Row[] =>
    wrap(text, width, indent).map((part) => row(part, 'plain'))
  return [
    ...screen.countdowns.flatMap((countdown) => countdownRows(countdown, width, now)),
    ...screen.notices.flatMap((notice) => noticeRows(notice, width)),
    ...wrap(screen.title, width).map((text) => row(text, 'strong')),
    ...screen.body.flatMap((text) => plain(text, '  ')),
    ...screen.boxes.flatMap(({ number, text, ticked }) => {
      const mark = `${String(number).padStart(2)} ${ticked ? '[x]' : '[ ]'} `
      return plain(mark + text, ' '.repeat(mark.length))
    }),
    ...screen.answered.flatMap((text) => plain(`* ${text}`, '  '))
  ]
}

/** A frame of its own sets a notice apart, by shape. */
function noticeRows({ word, label, body }: ShownNotice, width: number): readonly Row[] {
  const edge = '='.repeat(width)
  const inside = [`!! ${word}${label === '' ? '' : `: ${label}`}`, ...body]
  return [
    row(edge, 'alarm'),
    ...inside.flatMap((text) => wrap(text, width - 2, '')).map((text) => row(`| ${text}`, 'alarm')),
    row(edge, 'alarm'),
    row('', 'plain')
  ]
}

function countdownRows({ what, startedAt, until }: Countdown, width: number, now: string): readonly Row[] {
  const whole = Date.parse(until) - Date.parse(startedAt)
  const left = Math.max(0, Date.parse(until) - Date.parse(now))
  const share = whole <= 0 ? 1 : 1 - left / whole
  return [
    row(bar(share, Math.min(width, 50)), 'strong'),
    ...wrap(`${what} ${clockTime(until)}: ${formatDuration(Math.ceil(left / 1000))} to go`, width).map((text) =>
      row(text, 'strong')
    )
  ]
}
