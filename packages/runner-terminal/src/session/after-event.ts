import type { PersonId, Snapshot } from '@lockwright/machine'
import type { RunEvent, Signer } from '@lockwright/records'
import type { Kept, Taken } from '../run-port.js'
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

/** A stop whose needs do not hold is asked about once more, with what has to be done first. */
export function afterRefusal(desk: Desk, event: RunEvent, taken: Extract<Taken, { readonly ok: false }>): Desk {
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
