import type { CrewLock, PersonId, Snapshot } from '@lockwright/machine'
import type { Recorded } from '../run-port.js'
import { clockTime } from '../text/clock-time.js'
import type { Question } from './desk.js'
import { type Interpreted, refuse, type Sitting } from './interpreted.js'

/** A lock that hangs by the record and was not there when somebody looked; by whom and when that was said. */
export interface MissingLock {
  readonly lock: CrewLock
  readonly by: PersonId
  readonly at: string
}

/** Noted as missing, with no note since that it hangs again. */
export function missingLocks({ locks }: Snapshot, entries: readonly Recorded[]): readonly MissingLock[] {
  return locks.flatMap((lock): readonly MissingLock[] => {
    const about = entries.findLast(({ event }) => event.kind === 'note' && isAbout(event.text, lock))
    return about?.event.kind === 'note' && about.event.text.startsWith(missingText(lock))
      ? [{ lock, by: about.by, at: about.at }]
      : []
  })
}

/** What every screen shows of it until the run is stopped or the lock hangs again. */
export function tellMissing({ lock, by, at }: MissingLock): string {
  return (
    `MISSING: ${tellLock(lock)}, not found on ${clockTime(at)} by ${by}. The machine may be live. Keep everybody away, ` +
    `and type \`stop\`; or, once it hangs again, \`found ${lock.point}\`.`
  )
}

/** `missing`: which one is asked for, where more than one hangs. */
export function askMissing(sitting: Sitting): Interpreted {
  return { kind: 'desk', desk: { ...sitting.desk, question: { kind: 'missing-lock' } } }
}

/** By the number on it, or by its point. A run that was not paused is: all that was proven is proven again then. */
export function reportMissing(line: string, sitting: Sitting): Interpreted {
  const { snapshot, person } = sitting
  const found = named(line, snapshot.locks)
  if (found === undefined) return whichOne(snapshot.locks)
  const [lock, ...others] = found
  if (lock === undefined || others.length > 0) return whichOne(found)
  const text = `${missingText(lock)}: not on when it was looked for.`
  const then: Interpreted =
    snapshot.status === 'running'
      ? {
          kind: 'event',
          event: { kind: 'paused', reason: `${tellLock(lock)} is missing`, by: person },
          last: null,
          signer: null
        }
      : { kind: 'desk', desk: { ...sitting.desk, question: null } }
  return { kind: 'vouched', note: { kind: 'note', text, by: person }, signer: null, next: then }
}

/** `found POINT`, or the number on the lock: how it came to hang again is asked for. */
export function askFound(rest: string, sitting: Sitting): Interpreted {
  const missing = missingLocks(sitting.snapshot, sitting.entries).map(({ lock }) => lock)
  if (missing.length === 0) return refuse('No lock is on record as missing.', 'Type `missing` where one is.')
  const [lock, ...others] = named(rest, missing) ?? []
  if (lock === undefined || others.length > 0) return whichOne(missing)
  return { kind: 'desk', desk: { ...sitting.desk, question: { kind: 'found-lock', lock } } }
}

export function reportFound(
  line: string,
  { person }: Sitting,
  { lock }: Extract<Question, { readonly kind: 'found-lock' }>
): Interpreted {
  const text = `${foundText(lock)}: ${line}`
  return { kind: 'event', event: { kind: 'note', text, by: person }, last: null, signer: null }
}

/** Why nothing goes on while a lock is missing. */
export function refuseMissing(missing: readonly MissingLock[]): Interpreted {
  return refuse(
    `Not every lock is known to be on. ${missing.map(({ lock, by }) => `${tellLock(lock)} was reported missing by ${by}`).join('; ')}.`,
    `Keep everybody away from the machine. Once the lock hangs again, say so with ${missing.map(({ lock }) => `\`found ${lock.point}\``).join(', ')}; else stop the run, with \`stop\`.`
  )
}

function whichOne(locks: readonly CrewLock[]): Interpreted {
  return refuse(
    'It is not said which lock.',
    `Type the number on it: ${locks.map((lock) => tellLock(lock)).join(', ')}.`
  )
}

/** undefined: nothing bears this name. */
function named(line: string, locks: readonly CrewLock[]): readonly CrewLock[] | undefined {
  const of = locks.filter(({ lock }) => lock === line)
  const on = of.length > 0 ? of : locks.filter(({ point }) => point === line)
  return on.length === 0 ? undefined : on
}

export function tellLock({ lock, person, point }: CrewLock): string {
  return `lock ${lock} of ${person} on ${point}`
}

const missingText = (lock: CrewLock): string => `Missing: ${tellLock(lock)}`
const foundText = (lock: CrewLock): string => `Hangs again: ${tellLock(lock)}`

function isAbout(text: string, lock: CrewLock): boolean {
  return [missingText(lock), foundText(lock)].some((lead) => text.startsWith(`${lead}:`))
}
