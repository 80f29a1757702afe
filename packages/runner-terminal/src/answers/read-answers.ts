import { parseQuantity } from '@lockwright/energy'
import type { Diagnostic, Result } from '@lockwright/language'
import type { Answer, Answers } from './answers.js'
import { fault } from './fault.js'
import { readEntry } from './read-entry.js'
import { isTime } from './read-time.js'
import { readYaml, type Written } from './yaml-file.js'

/**
 * A file of scripted answers: a list of entries, or a map with `answers` and, for scripted times, `clock`.
 * All faults come back at once, each with its line.
 */
export function readAnswers(source: string, file: string): Result<Answers> {
  const { value, faults: broken } = readYaml(source, file)
  const faults: Diagnostic[] = [...broken]
  const read = value === null ? null : readTop(value, file, faults)
  const [first, ...others] = faults.sort((one, other) => one.place.start.offset - other.place.start.offset)
  if (first !== undefined) return { ok: false, diagnostics: [first, ...others] }
  return { ok: true, value: read ?? { file, clock: null, answers: [] }, warnings: [] }
}

function readTop(value: Written, file: string, faults: Diagnostic[]): Answers {
  const entries = (list: Written): readonly Answer[] => {
    if (list.kind === 'list') return list.items.flatMap((item) => readEntry(item, faults))
    faults.push(
      fault('answers-shape', list.place, 'The answers are not a list.', 'Write each answer behind a `- ` of its own.')
    )
    return []
  }
  if (value.kind !== 'map') return { file, clock: null, answers: entries(value) }
  let clock: Answers['clock'] = null
  let answers: readonly Answer[] = []
  for (const pair of value.pairs) {
    if (pair.key === 'answers') answers = entries(pair.value)
    else if (pair.key === 'clock') clock = readClock(pair.value, faults)
    else
      faults.push(
        fault(
          'answers-key',
          pair.place,
          `\`${pair.key}\` is not known at the top of a file of answers.`,
          'Known are `answers` and `clock`.'
        )
      )
  }
  if (!value.pairs.some(({ key }) => key === 'answers')) {
    faults.push(
      fault('answers-shape', value.place, 'The file has no `answers`.', 'Write `answers:` and the list below it.')
    )
  }
  return { file, clock, answers }
}

/** `clock: { start: 2026-03-02T07:00:00Z, pace: 1 min }` */
function readClock(value: Written, faults: Diagnostic[]): Answers['clock'] {
  if (value.kind !== 'map') {
    faults.push(
      fault(
        'answers-clock',
        value.place,
        '`clock` is not a map.',
        'Write `clock: { start: 2026-03-02T07:00:00Z, pace: 1 min }`.'
      )
    )
    return null
  }
  let start: string | null = null
  let paceSeconds = 0
  for (const { key, place, value: given } of value.pairs) {
    const text = given.kind === 'text' ? given.text : ''
    if (key === 'start' && isTime(text)) start = text
    else if (key === 'start')
      faults.push(
        fault('answers-time', given.place, `\`${text}\` is not a time.`, 'Write it as `2026-03-02T07:00:00Z`.')
      )
    else if (key === 'pace') {
      const pace = parseQuantity(text)
      if (pace.ok && pace.value.dimension === 'time') paceSeconds = pace.value.si
      else
        faults.push(
          fault('answers-time', given.place, `\`${text}\` is not a length of time.`, 'Write it as `30 s` or `2 min`.')
        )
    } else
      faults.push(fault('answers-key', place, `\`${key}\` is not known in \`clock\`.`, 'Known are `start` and `pace`.'))
  }
  if (start !== null) return { start, paceSeconds }
  if (!value.pairs.some(({ key }) => key === 'start')) {
    faults.push(
      fault(
        'answers-clock',
        value.place,
        '`clock` has no `start`.',
        'Write when the first answer is given, such as `start: 2026-03-02T07:00:00Z`.'
      )
    )
  }
  return null
}
