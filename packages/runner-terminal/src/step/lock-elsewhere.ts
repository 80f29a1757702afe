import type { PointId } from '@lockwright/language'
import { isSameLock, type LockId } from '@lockwright/machine'
import { type LockElsewhere, tellElsewhere } from '@lockwright/records'
import type { Question } from './desk.js'
import { type Interpreted, refuse, type Sitting } from './interpreted.js'

/** What every screen shows of a lock that hangs on this equipment by the record of another run. */
export function warnElsewhere(lock: LockElsewhere): string {
  const mend =
    lock.closedAt === null
      ? 'It comes off in its own run, which goes on with `lockwright step --site`.'
      : `Look whether it hangs. Once ${lock.person} has taken it off: \`off ${lock.lock}\`; where ${lock.person} is away, ` +
        `\`absent ${lock.lock}\`. Where it is to stay, ${lock.person} hangs it in this run by the same number.`
  return `ANOTHER RUN: ${tellElsewhere(lock)}. Nobody works or switches on as if it were not there. ${mend}`
}

/** `off NUMBER`: its owner, who is at the keys, has taken off a lock that a closed run left on. */
export function takeOffElsewhere(rest: string, sitting: Sitting): Interpreted {
  const lock = leftByClosedRun(rest, sitting)
  if ('kind' in lock) return lock
  if (lock.person !== sitting.person) {
    return refuse(
      `Lock ${lock.lock} on \`${lock.point}\` is that of ${lock.person}: only its owner takes it off.`,
      `${lock.person} comes to the keys, with \`as ${lock.person}\`, and types \`off ${lock.lock}\`; or, where ${lock.person} is away, type \`absent ${lock.lock}\`.`
    )
  }
  return {
    kind: 'event',
    event: {
      kind: 'lock-removed',
      state: sitting.snapshot.state,
      point: lock.point as PointId,
      owner: lock.person,
      from: { run: lock.run, lock: lock.lock as LockId },
      by: lock.person
    },
    last: null,
    signer: null
  }
}

/** `absent NUMBER`: its owner is away; what the law asks for then is asked for. */
export function absentElsewhere(rest: string, sitting: Sitting): Interpreted {
  const lock = leftByClosedRun(rest, sitting)
  if ('kind' in lock) return lock
  if (lock.person === sitting.person) {
    return refuse(`Lock ${lock.lock} is that of ${lock.person}, who answers here.`, `Type \`off ${lock.lock}\`.`)
  }
  const question: Question = {
    kind: 'absent-owner',
    owner: lock.person,
    point: lock.point as PointId,
    directedBy: null,
    answers: [],
    from: { run: lock.run, lock: lock.lock as LockId }
  }
  return { kind: 'desk', desk: { ...sitting.desk, question } }
}

function leftByClosedRun(
  rest: string,
  { elsewhere }: Sitting
): LockElsewhere | Extract<Interpreted, { kind: 'refused' }> {
  const [lock] = rest === '' ? [] : elsewhere.filter((one) => isSameLock(one.lock, rest))
  const refused = (why: string, mend: string) => ({ kind: 'refused', why, mend, desk: null }) as const
  if (lock === undefined) {
    const known = elsewhere.map((one) => `\`${one.lock}\` on ${one.point}`).join(', ')
    return refused(
      'No other run left a lock of this number on this equipment.',
      known === ''
        ? 'Locks of this run come off at the step at which locks come off.'
        : `Type the number on the lock; those that other runs have on are ${known}.`
    )
  }
  if (lock.closedAt === null) {
    return refused(
      `Run ${lock.run} is open: its lock ${lock.lock} comes off in its own run.`,
      'Go on with that run, and take it off there.'
    )
  }
  return lock
}
