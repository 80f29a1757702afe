import type { Diagnostic } from '@lockwright/language'
import type { Coming } from './answers.js'
import { fault } from './fault.js'
import { oneText, readTime } from './read-text.js'
import type { Written } from './yaml-file.js'

/** `people: [{ joins: tor, locks: { Q1: 41 }, time: ... }, { leaves: tor }]`: who came to work under the lockout, and who left it. */
export function readPeople(value: Written, faults: Diagnostic[]): readonly Coming[] {
  const items = value.kind === 'list' ? value.items : [value]
  return items.flatMap((item): readonly Coming[] => {
    if (item.kind !== 'map') {
      faults.push(notPeople(item))
      return []
    }
    let who: Pick<Coming, 'kind' | 'person'> | null = null
    let locks: Coming['locks'] = new Map()
    let time: string | null = null
    for (const { key, place, value: given } of item.pairs) {
      if (key === 'joins' || key === 'leaves') who = { kind: key, person: oneText(given, key, faults) }
      else if (key === 'time') time = readTime(given, key, faults)
      else if (key === 'locks' && given.kind === 'map')
        locks = new Map(given.pairs.map((pair) => [pair.key, oneText(pair.value, pair.key, faults)]))
      else
        faults.push(
          fault(
            'answers-key',
            place,
            `\`${key}\` is not known in \`people\`.`,
            'Known are `joins`, `leaves`, `time`, and `locks` as a map of points to numbers.'
          )
        )
    }
    if (who !== null) return [{ ...who, place: item.place, locks, time }]
    faults.push(notPeople(item))
    return []
  })
}

function notPeople({ place }: Written): Diagnostic {
  return fault(
    'answers-value',
    place,
    'It is not said who came or left.',
    'Write `{ joins: id, locks: { Q1: number } }` or `{ leaves: id }`.'
  )
}
