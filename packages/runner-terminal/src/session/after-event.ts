import type { PointId } from '@lockwright/language'
import type { PersonId, Snapshot } from '@lockwright/machine'
import type { RunEvent, Signer } from '@lockwright/records'
import type { Kept, Taken } from '../run-port.js'
import { directorRefused } from '../step/absent-owner.js'
import { type Desk, isClosing, type OwnEvent } from '../step/desk.js'
import { visible } from '../text/visible.js'
import type { Ended, SessionOptions } from './session.js'

export const nowhereToKeep: Kept = {
  ok: false,
  why: 'Files cannot be kept with this record.',
  mend: 'Note where the file lies, with `note`.'
}

export function attached({ name, sha256 }: Extract<Kept, { readonly ok: true }>, by: PersonId): RunEvent {
  return { kind: 'attachment', name, sha256, by }
}

export function isOwn(event: RunEvent): event is OwnEvent {
  return isClosing(event) || event.kind === 'deviation'
}

export function copierOf(event: RunEvent, { copiedBy }: SessionOptions): Signer | null {
  return event.kind === 'signed' || isOwn(event) ? (copiedBy ?? null) : null
}

/**
 * A stop whose needs do not hold is asked about once more, with what has to be done first; and who directs that an absent
 * person's lock comes off, where the roster does not let that person.
 */
export function afterRefusal(desk: Desk, event: RunEvent, taken: Extract<Taken, { readonly ok: false }>): Desk {
  if (event.kind === 'lock-removed' && taken.refusals.some(({ kind }) => kind === 'not-qualified')) {
    return { ...desk, question: directorRefused(event) }
  }
  const gates = taken.refusals.filter(({ kind }) => kind === 'gate')
  if (event.kind !== 'stopped' || event.left !== undefined || gates.length === 0)
    return { ...desk, question: null, withoutInstrument: null }
  return { ...desk, question: { kind: 'stop-left', reason: event.reason, needs: gates } }
}

export function tellRefusals({ refusals }: Extract<Taken, { readonly ok: false }>): readonly string[] {
  return refusals
    .flatMap(({ obligation, why, mend }) => [
      `Not taken: ${why}${obligation === null ? '' : ` (${obligation})`}`,
      ...(mend === '' ? [] : [mend])
    ])
    .map(visible)
}

/** How to hang the locks for want of which this was refused; nothing where it was refused for something else. */
export function tellMissingLocks(
  { ledger, locks, crew }: Snapshot,
  { by, kind }: RunEvent,
  { refusals }: Extract<Taken, { readonly ok: false }>
): readonly string[] {
  if (kind === 'joined' || kind === 'handed-over' || !refusals.some((refusal) => refusal.kind === 'crew')) return []
  const locked = (Object.keys(ledger.points) as PointId[]).filter((id) => ledger.points[id] === 'locked')
  const lacking = [by, ...crew].find((id) =>
    locked.some((point) => !locks.some((lock) => lock.person === id && lock.point === point))
  )
  return lacking === undefined ? [] : [visible(`\`join ${lacking}\` asks for the number of each lock that is missing.`)]
}

export function endedBy({ status }: Snapshot): Ended | null {
  switch (status) {
    case 'finished':
    case 'stopped':
    case 'paused':
      return status
    case 'new':
    case 'running':
      return null
  }
}

/** Why this id cannot work here: with a roster, only those on it are named. */
export function strangerTo(
  people: SessionOptions['people'],
  id: PersonId
): { readonly why: string; readonly mend: string } | null {
  const known = people?.() ?? []
  return people === undefined || known.includes(id)
    ? null
    : {
        why: `Nobody on the roster has the id \`${id}\`.`,
        mend: `The ids are ${known.join(', ')}; have anybody else added first, with \`people add\`.`
      }
}
