import type { Diagnostic } from '@lockwright/language'
import type { Answer, StepAnswers, Ticked } from './answers.js'
import { fault } from './fault.js'
import { readPeople } from './read-people.js'
import { oneText, readTime } from './read-text.js'
import type { Pair, Written } from './yaml-file.js'

const keys = [
  'at',
  'step',
  'time',
  'ended',
  'by',
  'people',
  'ticks',
  'locks',
  'reading',
  'readings',
  'with',
  'reason',
  'sure',
  'choose',
  'sign',
  'wait',
  'locks-on',
  'note',
  'type',
  'stop',
  'left'
]

type Draft = { -readonly [Key in keyof StepAnswers]: StepAnswers[Key] }

/** One entry: a line as it is typed, or a map that says where it belongs and what is answered there. */
export function readEntry(item: Written, faults: Diagnostic[]): readonly Answer[] {
  if (item.kind === 'text') return [{ kind: 'line', place: item.place, line: item.text }]
  if (item.kind === 'list') {
    faults.push(
      fault(
        'answers-shape',
        item.place,
        'A list stands where one answer belongs.',
        'Write a line of text, or `at:` and what is answered there.'
      )
    )
    return []
  }
  const draft: Draft = {
    kind: 'step',
    place: item.place,
    at: '',
    number: null,
    time: null,
    ended: null,
    people: [],
    by: null,
    ticks: [],
    locks: new Map(),
    readings: new Map(),
    with: new Map(),
    reasons: [],
    sure: false,
    choose: null,
    sign: null,
    waited: false,
    locksOn: false,
    type: [],
    stop: null,
    left: null
  }
  for (const pair of item.pairs) readKey(pair, draft, faults)
  if (draft.at === '' && draft.number === null && draft.people.length === 0) {
    faults.push(
      fault(
        'answers-where',
        item.place,
        'The entry does not say where it belongs.',
        'Write `step:` with its number on the printed sheet, or `at:` with its id as `whole` in the runner names it.'
      )
    )
    return []
  }
  return [draft]
}

function readKey({ key, place, value }: Pair, draft: Draft, faults: Diagnostic[]): void {
  const text = (): string => oneText(value, key, faults)
  switch (key) {
    case 'at':
      draft.at = text()
      return
    case 'step': {
      const number = text()
      if (/^[1-9]\d{0,5}$/.test(number)) draft.number = Number(number)
      else if (number !== '')
        faults.push(
          fault(
            'answers-value',
            value.place,
            `\`${number}\` is not the number of a step.`,
            'Write it as on the printed sheet, such as `step: 9`; an id goes behind `at:`.'
          )
        )
      return
    }
    case 'time':
    case 'ended':
      draft[key] = readTime(value, key, faults)
      return
    case 'people':
      draft.people = readPeople(value, faults)
      return
    case 'by':
      draft.by = text()
      return
    case 'ticks':
      draft.ticks = readTicks(value, faults)
      return
    case 'locks':
      draft.locks = new Map(
        readPairs(value, key, faults).map((pair) => [pair.key, oneText(pair.value, pair.key, faults)])
      )
      return
    case 'reading':
      draft.readings = new Map([...draft.readings, ['', texts(value, key, faults)]])
      return
    case 'readings':
      draft.readings = new Map([
        ...draft.readings,
        ...readPairs(value, key, faults).map((pair) => [pair.key, texts(pair.value, pair.key, faults)] as const)
      ])
      return
    case 'with':
      draft.with =
        value.kind === 'map'
          ? new Map(value.pairs.map((pair) => [pair.key, texts(pair.value, pair.key, faults)]))
          : new Map([['', texts(value, key, faults)]])
      return
    case 'reason':
      draft.reasons = texts(value, key, faults)
      return
    case 'sure':
      draft.sure = yes(value, key, faults)
      return
    case 'choose':
      draft.choose = text()
      return
    case 'sign':
      draft.sign = readSign(value, faults)
      return
    case 'wait':
      draft.waited = text() === 'over'
      if (!draft.waited)
        faults.push(
          fault(
            'answers-value',
            value.place,
            '`wait` can only be `over`.',
            'Write `wait: over` once it was waited out.'
          )
        )
      return
    case 'locks-on':
      draft.locksOn = yes(value, key, faults)
      return
    case 'note':
      draft.type = [...draft.type, ...texts(value, key, faults).map((note) => `note ${note}`)]
      return
    case 'type':
      draft.type = [...draft.type, ...texts(value, key, faults)]
      return
    case 'stop':
      draft.stop = text()
      return
    case 'left':
      draft.left = text()
      return
    default:
      faults.push(
        fault(
          'answers-key',
          place,
          `\`${key}\` is not known in an entry.`,
          `Known are ${keys.map((name) => `\`${name}\``).join(', ')}.`
        )
      )
  }
}

function texts(value: Written, key: string, faults: Diagnostic[]): readonly string[] {
  return value.kind === 'list' ? value.items.map((item) => oneText(item, key, faults)) : [oneText(value, key, faults)]
}

function readPairs(value: Written, key: string, faults: Diagnostic[]): readonly Pair[] {
  if (value.kind === 'map') return value.pairs
  faults.push(fault('answers-value', value.place, `\`${key}\` is not a map.`, `Write \`${key}: { name: value }\`.`))
  return []
}

function readTicks(value: Written, faults: Diagnostic[]): Ticked {
  if (value.kind === 'text' && value.text.trim() === 'all') return 'all'
  const numbers = value.kind === 'list' ? texts(value, 'ticks', faults) : [oneText(value, 'ticks', faults)]
  for (const number of numbers) {
    if (!/^\d+$/.test(number)) {
      faults.push(
        fault(
          'answers-value',
          value.place,
          `\`${number}\` is not the number of a box.`,
          'Write `ticks: all`, or the numbers as `ticks: [1, 2]`.'
        )
      )
    }
  }
  return numbers
}

function yes(value: Written, key: string, faults: Diagnostic[]): boolean {
  const text = oneText(value, key, faults)
  if (text === 'yes' || text === 'true') return true
  if (text !== 'no' && text !== 'false') {
    faults.push(fault('answers-value', value.place, `\`${key}\` is neither yes nor no.`, 'Write `yes` or `no`.'))
  }
  return false
}

/** `sign: m.vega`, `sign: no`, or `sign: { person: m.vega, passphrase-from: env:NAME }`. */
function readSign(value: Written, faults: Diagnostic[]): StepAnswers['sign'] {
  if (value.kind !== 'map') {
    const person = oneText(value, 'sign', faults)
    if (person === 'no') return 'no'
    return { person: person === 'yes' ? null : person, passphraseFrom: null }
  }
  let person: string | null = null
  let passphraseFrom: string | null = null
  for (const pair of value.pairs) {
    if (pair.key === 'person') person = oneText(pair.value, pair.key, faults)
    else if (pair.key === 'passphrase-from') passphraseFrom = oneText(pair.value, pair.key, faults)
    else
      faults.push(
        fault(
          'answers-key',
          pair.place,
          `\`${pair.key}\` is not known in \`sign\`.`,
          'Known are `person` and `passphrase-from`; a passphrase itself never stands in a file of answers.'
        )
      )
  }
  return { person, passphraseFrom }
}
