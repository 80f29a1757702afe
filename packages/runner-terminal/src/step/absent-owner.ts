import { askedNext } from './asked.js'
import type { Question } from './desk.js'
import { type Interpreted, refuse, type Sitting } from './interpreted.js'

type AbsentOwnerQuestion = Extract<Question, { readonly kind: 'absent-owner' }>

/**
 * The lock that is to come off belongs to somebody who is away: three conditions are asked for, one after the other.
 * Undefined where no lock comes off: the word may be an answer there.
 */
export function askAbsentOwner({ machine, snapshot, desk, person }: Sitting): Interpreted | undefined {
  const asked = askedNext(machine, snapshot, desk)
  if (asked.kind !== 'unlock') return undefined
  const { person: owner } = asked.lock
  if (owner === person) {
    return refuse(`The lock on \`${asked.point}\` is that of ${owner}, who answers here.`, 'Type its number.')
  }
  return { kind: 'desk', desk: { ...desk, question: { kind: 'absent-owner', owner, point: asked.point, answers: [] } } }
}

/** What is asked, in the order of 29 CFR 1910.147(e)(3)(i) to (iii). */
export function absentOwnerAsks({ owner, point, answers }: AbsentOwnerQuestion): string {
  const asks = [
    `The lock of ${owner} on ${point}: how was it verified that ${owner} is not at the plant?`,
    `What was done to reach ${owner} and say that the lock comes off?`,
    `How is it made sure that ${owner} knows of it before taking up work here again?`
  ]
  return asks[answers.length] ?? ''
}

/** One more condition answered; with the third the lock comes off, and all three stand in the record. */
export function absentOwner(
  line: string,
  { snapshot, desk, person }: Sitting,
  question: AbsentOwnerQuestion
): Interpreted {
  const answers = [...question.answers, line]
  const [verifiedAway = '', triedToReach = '', toldBeforeReturn] = answers
  if (toldBeforeReturn === undefined) return { kind: 'desk', desk: { ...desk, question: { ...question, answers } } }
  return {
    kind: 'event',
    event: {
      kind: 'lock-removed',
      state: snapshot.state,
      point: question.point,
      owner: question.owner,
      absent: { verifiedAway, triedToReach, toldBeforeReturn },
      by: person
    },
    last: null,
    signer: null
  }
}
