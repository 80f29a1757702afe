import type { PersonId } from '@lockwright/machine'
import { type Interpreted, refuse, type Sitting } from './interpreted.js'

/** `as PERSON`: somebody else is at the keys from now on. Alone, it asks who, with those under the lockout first. */
export function atTheKeys(rest: string, sitting: Sitting): Interpreted {
  if (rest === '') {
    const known = peopleToName(sitting)
    return known.length === 0
      ? refuse('It is not said who.', 'Type `as PERSON` with the id that the roster has.')
      : { kind: 'desk', desk: { ...sitting.desk, question: { kind: 'who', people: known } } }
  }
  if (/\s/.test(rest)) return refuse('It is not said who.', 'Type `as PERSON` with the id that the roster has.')
  const person = rest as PersonId
  const stranger = sitting.stranger(person)
  return stranger === null ? { kind: 'person', person } : refuse(stranger.why, stranger.mend)
}

/** By number, or by id. */
export function whoAnswers(line: string, sitting: Sitting, people: readonly PersonId[]): Interpreted {
  const chosen = /^\d+$/.test(line) ? people[Number(line) - 1] : undefined
  return atTheKeys(chosen ?? line, sitting)
}

/** More than these are not listed: the id is typed. */
const most = 9

function peopleToName({ snapshot, people, person }: Sitting): readonly PersonId[] {
  const all = [...new Set([...snapshot.crew, ...people])].filter((id) => id !== person)
  return all.slice(0, most)
}
