import type { PointId } from '@lockwright/language'
import type { HungLock, PersonId, Snapshot } from '@lockwright/machine'
import type { Question } from './desk.js'
import { readLock } from './interpret-lock.js'
import { type Interpreted, refuse, type Sitting } from './interpreted.js'

type CrewLocksQuestion = Extract<Question, { readonly kind: 'crew-locks' }>

/** What somebody is to do who comes to work under the lockout. */
export type Coming = CrewLocksQuestion['comes']

/**
 * `PERSON Q1=31 Q2=32`, or `PERSON` alone: then the lock on each point is asked for, one after the other. Whoever
 * comes has a lock of their own on every locked point before anything else: 29 CFR 1910.147(f)(3) and (f)(4).
 */
export function come(comes: Coming, rest: string, sitting: Sitting): Interpreted {
  const [name = '', ...pairs] = rest.split(' ')
  const word = comes === 'joins' ? 'join' : 'handover'
  if (name === '' || name.includes('=')) {
    return refuse('It is not said who.', `Type \`${word} PERSON\` with the id that the roster has.`)
  }
  const stranger = sitting.stranger(name as PersonId)
  if (stranger !== null) return refuse(stranger.why, stranger.mend)
  if (comes === 'takes over' && name === sitting.person) {
    return refuse(`${name} answers here and cannot take over from themselves.`, 'Name whoever takes over.')
  }
  const locks = pairs.map((pair) => readPair(pair, sitting))
  if (locks.includes(undefined)) {
    return refuse(
      `\`${pairs[locks.indexOf(undefined)]}\` names no point of this procedure with the number of a lock.`,
      `Type \`${word} ${name}\` alone, and the number of each lock is asked for.`
    )
  }
  const given = locks.filter((lock) => lock !== undefined)
  const question: CrewLocksQuestion = { kind: 'crew-locks', comes, person: name as PersonId, locks: given }
  const handsNothing = comes === 'takes over' && !sitting.snapshot.locks.some((lock) => lock.person === sitting.person)
  if (given.length > 0 || handsNothing || nextPoint(sitting.snapshot, question, sitting.person) === undefined)
    return hung(question, sitting)
  return { kind: 'desk', desk: { ...sitting.desk, question } }
}

/** The number of the lock that was asked for; with the last one the coming is recorded. */
export function crewLock(line: string, sitting: Sitting, question: CrewLocksQuestion): Interpreted {
  const point = nextPoint(sitting.snapshot, question, sitting.person)
  if (point === undefined) return hung(question, sitting)
  const lock = readLock(line, sitting, point, question.locks)
  if (!lock.ok) return refuse(lock.why, lock.mend)
  const next: CrewLocksQuestion = { ...question, locks: [...question.locks, { point, lock: lock.lock }] }
  return nextPoint(sitting.snapshot, next, sitting.person) === undefined
    ? hung(next, sitting)
    : { kind: 'desk', desk: { ...sitting.desk, question: next } }
}

/** What is asked: the incoming lock is on before the outgoing one comes off. */
export function crewLockAsks(snapshot: Snapshot, question: CrewLocksQuestion, from: PersonId): string {
  const { comes, person } = question
  const point = nextPoint(snapshot, question, from)
  const first = comes === 'takes over' ? ' All of them are on before an outgoing lock comes off.' : ''
  return `${person} ${comes}: hang a lock and tag of ${person} on ${point}. What is its number?${first}`
}

/** The first point on which whoever comes has to have a lock and has none yet. */
function nextPoint(
  { ledger, locks: hanging }: Snapshot,
  { comes, person, locks }: CrewLocksQuestion,
  from: PersonId
): PointId | undefined {
  // Whoever hands over may have locked what the step has not yet confirmed: that is covered too.
  const handed = comes === 'takes over' ? hanging.filter((lock) => lock.person === from) : []
  const own = hanging.filter((lock) => lock.person === person)
  return (Object.keys(ledger.points) as PointId[]).find(
    (id) =>
      (ledger.points[id] === 'locked' || handed.some(({ point }) => point === id)) &&
      ![...own, ...locks].some(({ point }) => point === id)
  )
}

function hung({ comes, person, locks }: CrewLocksQuestion, sitting: Sitting): Interpreted {
  return {
    kind: 'event',
    event:
      comes === 'joins'
        ? { kind: 'joined', locks, by: person }
        : { kind: 'handed-over', to: person, locks, by: sitting.person },
    last: null,
    signer: null
  }
}

function readPair(pair: string, { machine }: Sitting): HungLock | undefined {
  const [name = '', lock = ''] = pair.split('=')
  const point = machine.points.find(({ id }) => id === name)
  return point === undefined || lock === '' ? undefined : { point: point.id, lock: lock as HungLock['lock'] }
}
