import type { PersonId, Ticks } from '@lockwright/machine'
import type { RunEvent } from '@lockwright/records'
import type { Asked } from './asked.js'
import type { Sitting } from './interpreted.js'

/** What was ticked and acknowledged in the step, for the event that leaves it. */
export function ticks({ desk }: Pick<Sitting, 'desk'>): Ticks {
  return { acknowledged: desk.acknowledged, boxes: desk.boxes }
}

export function signedEvent(
  sitting: Pick<Sitting, 'desk' | 'snapshot'>,
  { role, meaning }: Extract<Asked, { readonly kind: 'sign' }>,
  person: PersonId
): RunEvent {
  return { kind: 'signed', state: sitting.snapshot.state, role, meaning, ...ticks(sitting), by: person }
}
