import type { Input } from '@lockwright/machine'
import type { Asked } from '../step/asked.js'
import { tellLimits } from '../step/limits.js'
import type { StepAnswers } from './answers.js'

/** The line that an entry types for what is asked; or what it fails to say. `taken`: readings already given, by key. */
export type LineFor =
  | { readonly kind: 'line'; readonly line: string; readonly reading: string | null }
  | { readonly kind: 'wait' }
  | { readonly kind: 'missing'; readonly what: string; readonly mend: string }

type ReadingInput = Extract<Input, { readonly kind: 'reading' }>
type ReadingAsked = Extract<Asked, { readonly kind: 'reading' }>
/** All readings of the step, in the order in which they are asked for. */
type Inputs = readonly ReadingInput[]

export function lineFor(asked: Asked, entry: StepAnswers, taken: ReadonlyMap<string, number>, inputs: Inputs): LineFor {
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
      return reading(asked, entry, taken, inputs)
    case 'prove-again':
      return asked.input === null ? line(asked.confirm.word) : provedAgain(asked.source, entry, taken)
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
function reading(asked: ReadingAsked, entry: StepAnswers, taken: ReadonlyMap<string, number>, inputs: Inputs): LineFor {
  const { input, last, mayGoOutside } = asked
  // Whatever was read, the way on is that for readings that stay outside.
  const goesOutside = mayGoOutside && entry.choose === 'outside'
  const key = keyOf(input, entry)
  if (key === undefined)
    return missing(
      `The entry has no reading for \`${input.label}\`.`,
      'Write `reading:`, or `readings:` with the name of the source and what was read.'
    )
  const given = entry.readings.get(key) ?? []
  const sharing = inputs.filter((other) => keyOf(other, entry) === key)
  const again = last !== null && !last.inside
  // Readings of one name for several lines stand for one line each: a second try would shift all that follow.
  if (sharing.length > 1) {
    if (again) return goesOutside ? line('outside') : outOfLimits(asked, last.typed)
    // A list has one for each line of the name, or for each of those that have no entry of their own.
    const bearing = inputs.filter((other) => namesOf(other).includes(key))
    const lines = given.length === bearing.length ? bearing : sharing
    const fits = given.length === 1 || given.length === lines.length
    const text = given.length === 1 ? given[0] : given[lines.findIndex(({ id }) => id === input.id)]
    return text === undefined || !fits
      ? missing(
          `The entry has ${given.length} readings for the ${sharing.length} lines ${sharing.map(({ label }) => `\`${label}\``).join(', ')}.`,
          'Write one for each line, in their order, or one for all of them.'
        )
      : { kind: 'line', line: text, reading: key }
  }
  const text = given[taken.get(key) ?? 0]
  if (text !== undefined) return { kind: 'line', line: text, reading: key }
  if (again) return goesOutside ? line('outside') : outOfLimits(asked, last.typed)
  return missing(
    `The entry has no further reading for \`${input.label}\`.`,
    'Write one more reading behind the others.'
  )
}

function outOfLimits({ input, mayGoOutside }: ReadingAsked, typed: string): LineFor {
  const outside = mayGoOutside
    ? ' Where it stayed outside and the way for that was taken, write `choose: outside`.'
    : ''
  return missing(
    `\`${input.label}\` read ${typed}, which is out of limits (${tellLimits(input)}), and no further reading of it is given.`,
    `Write all that was read there under its own name: \`readings: { "${input.label}": [${typed}, ...] }\`.${outside}`
  )
}

/** Under which name the entry gives this reading. */
export function keyOf(input: ReadingInput, entry: StepAnswers): string | undefined {
  return namesOf(input).find((name) => entry.readings.has(name))
}

/** The numbers of the instruments with which the entry says that this was read. */
export function instrumentsOf(input: ReadingInput, entry: StepAnswers): readonly string[] {
  return entry.with.get(namesOf(input).find((name) => entry.with.has(name)) ?? '') ?? []
}

/** The nearest name first; the empty one stands for whatever is read. */
function namesOf({ id, label, source }: ReadingInput): readonly string[] {
  return [id, label, ...(source === null ? [] : [source]), '']
}

/** Verified again after a break: by the name of the source. */
function provedAgain(source: string, entry: StepAnswers, taken: ReadonlyMap<string, number>): LineFor {
  const key = [source, ''].find((name) => entry.readings.has(name))
  const given = key === undefined ? [] : (entry.readings.get(key) ?? [])
  // One reading for all stands for each source once; what was not taken is not given a second time.
  const counted = key === '' && given.length > 1 ? '' : source
  const text = given[taken.get(counted) ?? 0]
  return text === undefined
    ? missing(
        `The entry has no further reading for \`${source}\`.`,
        'Write `readings:` with the name of the source and what was read.'
      )
    : { kind: 'line', line: text, reading: counted }
}
