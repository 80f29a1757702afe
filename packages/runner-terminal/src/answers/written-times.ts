import type { Diagnostic, Place } from '@lockwright/language'
import type { Input } from '@lockwright/machine'
import { visible } from '../text/visible.js'
import type { StepAnswers } from './answers.js'
import { fault } from './fault.js'

type Wait = Extract<Input, { readonly kind: 'wait' }>

const minute = 60_000

/**
 * A wait whose written times are shorter than it has to be was not kept, whatever was ticked. Times to the minute are
 * given the benefit of the whole of the last minute.
 */
export function tooShort({ seconds, source }: Wait, { ended, place }: StepAnswers, started: string): Diagnostic | null {
  if (ended === null) return null
  const [from, to] = [Date.parse(started), Date.parse(ended)]
  const latest = toTheMinute(to) ? to + minute - 1000 : to
  if (latest - from >= seconds * 1000) return null
  const of = source === null ? '' : ` for \`${source}\``
  return fault(
    'answers-wait',
    place,
    visible(
      `The wait${of} has to be ${spell(seconds)}. It began at ${clockOf(from)} and was written as over at ${clockOf(to)}: ${to < from ? 'before it began' : spell((to - from) / 1000)}.`
    ),
    'Treat what was waited for as still there. Ask whoever worked with the sheet; a wait that was not kept is not entered.',
    'What was waited for may not have been gone when people put hands to it, and the record would say that it was.'
  )
}

/** Paper tells what has been: a time that is still to come was written wrongly, or read in the wrong time zone. */
export function notYet(at: string, now: string, place: Place): Diagnostic | null {
  return Date.parse(at) <= Date.parse(now)
    ? null
    : fault(
        'answers-time',
        place,
        `This would be recorded for ${clockOf(Date.parse(at))}, and it is ${clockOf(Date.parse(now))} now.`,
        'See the day, the times and the time zone of the sheet. A wait that still runs is entered once it is over.'
      )
}

/** Whether a time is that of a minute on a sheet, in which the clock stands already. */
export function inThisMinute(written: string, now: string): boolean {
  const [from, at] = [Date.parse(written), Date.parse(now)]
  return toTheMinute(from) && at >= from && at < from + minute
}

function toTheMinute(time: number): boolean {
  return time % minute === 0
}

function clockOf(time: number): string {
  return new Date(time).toISOString().replace('.000Z', 'Z')
}

function spell(seconds: number): string {
  return seconds % 60 === 0 ? `${seconds / 60} min` : `${seconds} s`
}
