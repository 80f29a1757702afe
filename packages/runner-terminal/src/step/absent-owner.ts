import type { PersonId } from '@lockwright/machine'
import type { RunEvent } from '@lockwright/records'
import { askedNext } from './asked.js'
import type { Question } from './desk.js'
import { type Interpreted, refuse, type Sitting } from './interpreted.js'

type AbsentOwnerQuestion = Extract<Question, { readonly kind: 'absent-owner' }>

/**
 * The lock that is to come off belongs to somebody who is away: who directs it is asked for, then three conditions, one
 * after the other. Undefined where no lock comes off: the word may be an answer there.
 */
export function askAbsentOwner({ machine, snapshot, desk, person }: Sitting): Interpreted | undefined {
  const asked = askedNext(machine, snapshot, desk)
  if (asked.kind !== 'unlock') return undefined
  const { person: owner } = asked.lock
  if (owner === person) {
    return refuse(`The lock on \`${asked.point}\` is that of ${owner}, who answers here.`, 'Type its number.')
  }
  const question: AbsentOwnerQuestion = {
    kind: 'absent-owner',
    owner,
    point: asked.point,
    directedBy: null,
    answers: []
  }
  return { kind: 'desk', desk: { ...desk, question } }
}

/** What is asked: 29 CFR 1910.147(e)(3), under the direction of the employer; then its (i) to (iii) in their order. */
export function absentOwnerAsks({ owner, point, directedBy, answers }: AbsentOwnerQuestion): string {
  if (directedBy === null) {
    return `The lock of ${owner} on ${point} comes off only under the direction of the employer. Who directs it?`
  }
  const asks = [
    `The lock of ${owner} on ${point}: how was it verified that ${owner} is not at the plant?`,
    `What was done to reach ${owner} and say that the lock comes off?`,
    `How is it made sure that ${owner} knows of it before taking up work here again?`
  ]
  return asks[answers.length] ?? ''
}

/** One more answer; with the last one the lock comes off, and all of them stand in the record. */
export function absentOwner(line: string, sitting: Sitting, question: AbsentOwnerQuestion): Interpreted {
  return question.directedBy === null
    ? directed(line as PersonId, sitting, question)
    : goOn(sitting, { ...question, answers: [...question.answers, line] })
}

/** Refused by the roster, the director alone is asked for again; what was answered besides is kept. */
export function directorRefused({ absent, owner, point, from }: LockRemoved): AbsentOwnerQuestion | null {
  if (absent === undefined) return null
  const { verifiedAway, triedToReach, toldBeforeReturn } = absent
  return {
    kind: 'absent-owner',
    owner,
    point,
    directedBy: null,
    answers: [verifiedAway, triedToReach, toldBeforeReturn],
    ...(from === undefined ? {} : { from })
  }
}

type LockRemoved = Extract<RunEvent, { readonly kind: 'lock-removed' }>

function directed(id: PersonId, sitting: Sitting, question: AbsentOwnerQuestion): Interpreted {
  if (/\s/.test(id)) {
    return refuse('It is not said who directs it.', 'Type the id that the roster has, nothing else.')
  }
  const stranger = sitting.stranger(id)
  if (stranger !== null) return refuse(stranger.why, stranger.mend)
  return goOn(sitting, { ...question, directedBy: id })
}

function goOn({ snapshot, desk, person }: Sitting, question: AbsentOwnerQuestion): Interpreted {
  const { owner, point, directedBy, answers, from } = question
  const [verifiedAway = '', triedToReach = '', toldBeforeReturn] = answers
  if (directedBy === null || toldBeforeReturn === undefined) return { kind: 'desk', desk: { ...desk, question } }
  return {
    kind: 'event',
    event: {
      kind: 'lock-removed',
      state: snapshot.state,
      point,
      owner,
      absent: { verifiedAway, triedToReach, toldBeforeReturn, directedBy },
      ...(from === undefined ? {} : { from }),
      by: person
    },
    last: null,
    signer: null
  }
}
