import type { Asked } from '../step/asked.js'
import type { StepAnswers } from './answers.js'

/** The line that an entry types for what is asked; or what it fails to say. `taken`: readings already given, by key. */
export type LineFor =
  | { readonly kind: 'line'; readonly line: string; readonly reading: string | null }
  | { readonly kind: 'wait' }
  | { readonly kind: 'missing'; readonly what: string; readonly mend: string }

export function lineFor(asked: Asked, entry: StepAnswers, taken: ReadonlyMap<string, number>): LineFor {
  switch (asked.kind) {
    case 'nothing':
      return missing('The run is closed here.', 'Take the entry out.')
    case 'notice':
    case 'done':
      return line(asked.confirm.word)
    case 'resume':
      return entry.locksOn || asked.locks.length === 0
        ? line(asked.confirm.word)
        : missing(
            'The run was interrupted, and the entry does not say that every lock was looked at.',
            'Write `locks-on: yes` in it.'
          )
    case 'start-wait':
      return entry.waited
        ? line(asked.confirm.word)
        : missing('The entry does not say that the wait was waited out.', 'Write `wait: over` in it.')
    case 'waiting':
      return entry.waited
        ? { kind: 'wait' }
        : missing('The entry does not say that the wait was waited out.', 'Write `wait: over` in it.')
    case 'boxes': {
      const open = asked.boxes.map(({ number }) => String(number))
      const ticked = entry.ticks === 'all' ? open : open.filter((number) => entry.ticks.includes(number))
      return ticked.length === 0
        ? missing(
            `The entry does not say that line ${open.join(', ')} was done.`,
            'Write `ticks: all`, or the numbers of the lines that were done.'
          )
        : line(ticked.join(' '))
    }
    case 'lock':
    case 'unlock': {
      const lock = entry.locks.get(asked.point)
      return lock === undefined
        ? missing(`The entry has no lock for \`${asked.point}\`.`, `Write \`locks: { ${asked.point}: number }\`.`)
        : line(lock)
    }
    case 'reading':
      return reading([asked.input.id, asked.input.label, asked.input.source ?? ''], entry, taken, asked.last !== null)
    case 'prove-again':
      return asked.input === null ? line(asked.confirm.word) : reading([asked.source], entry, taken, false)
    case 'choose':
      return entry.choose === null
        ? missing('The entry chooses no answer.', 'Write `choose:` with the number or the words of the answer.')
        : line(entry.choose)
    case 'sign':
      if (entry.sign === null || entry.sign === 'no')
        return missing('The entry does not say who signs.', 'Write `sign: { person: id, passphrase-from: env:NAME }`.')
      return line(entry.sign.person === null ? 'sign' : `sign ${entry.sign.person}`)
  }
}

function line(text: string): LineFor {
  return { kind: 'line', line: text, reading: null }
}

function missing(what: string, mend: string): LineFor {
  return { kind: 'missing', what, mend }
}

/** By input id, by label, by source, or the one reading for all; several are given one after the other. */
function reading(
  names: readonly string[],
  entry: StepAnswers,
  taken: ReadonlyMap<string, number>,
  again: boolean
): LineFor {
  const key = [...names.filter((name) => name !== ''), ''].find((name) => entry.readings.has(name))
  const first = names[0] ?? ''
  if (key === undefined)
    return missing(
      `The entry has no reading for \`${first}\`.`,
      'Write `reading:`, or `readings:` with the name of the source and what was read.'
    )
  const given = entry.readings.get(key) ?? []
  // One reading stands for all that bear its name, but not for a second try; of several, each is taken once.
  const text = given.length === 1 && !again ? given[0] : given[taken.get(key) ?? 0]
  return text === undefined
    ? missing(`The entry has no further reading for \`${first}\`.`, 'Write one more reading behind the others.')
    : { kind: 'line', line: text, reading: key }
}
