import type { Diagnostic } from '@lockwright/language'
import { fault } from './fault.js'
import { isTime } from './read-time.js'
import type { Written } from './yaml-file.js'

/** A time as RFC 3339 has it; anything else is a fault. */
export function readTime(value: Written, key: string, faults: Diagnostic[]): string {
  const text = oneText(value, key, faults)
  if (!isTime(text))
    faults.push(fault('answers-time', value.place, `\`${text}\` is not a time.`, 'Write it as `2026-03-02T07:00:00Z`.'))
  return text
}

/** A text that is not empty; else there is a fault and an empty one. */
export function oneText(value: Written, key: string, faults: Diagnostic[]): string {
  if (value.kind === 'text' && value.text.trim() !== '') return value.text.trim()
  faults.push(fault('answers-value', value.place, `\`${key}\` has no text.`, 'Write what was answered, on one line.'))
  return ''
}
