import { stateOf } from '@lockwright/machine'
import type { Interpreted, Sitting } from './interpreted.js'

/** Typed where what is looked at is not as the step says. */
export const notSoWord = 'not so'

export function askNotSo({ desk }: Sitting): Interpreted {
  return { kind: 'desk', desk: { ...desk, question: { kind: 'not-so' } } }
}

export const notSoAsks =
  'What is seen instead? It is noted, and the work stops here: locks stay on. Until it is known why, treat the machine as live.'

/** What was seen stays in the record as a note, also where the stop asks for more before it is taken. */
export function notSo(line: string, { machine, snapshot, person }: Sitting): Interpreted {
  const { title } = stateOf(machine, snapshot.state)
  const text = `Not as the step says (${title}): ${line}`
  return {
    kind: 'vouched',
    note: { kind: 'note', text, by: person },
    signer: null,
    next: { kind: 'event', event: { kind: 'stopped', reason: text, by: person }, last: null, signer: null }
  }
}
