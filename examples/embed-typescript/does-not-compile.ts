/**
 * What the generated types refuse. Each line below that is marked would be an error; `npm run types` fails as soon
 * as one of them compiles.
 */
import type { PersonId } from '@lockwright/machine'
import type { At } from '@lockwright/machine/typescript'
import { advance, type StateName, start } from './booster-pump.generated.js'

const stamp = { at: '2027-03-02T08:00:00.000Z', by: 'tor' as PersonId }
const ticks = { acknowledged: [], boxes: [] } as const

/** Never called: it is there for the type checker. */
export function refusedByTheTypes(window: At<'window'>, lock: At<'lock-out.3'>, anywhere: At<StateName>): void {
  advance(window, { ...stamp, kind: 'choice', state: 'window', answer: 'answer-1', ...ticks })
  advance(lock, { ...stamp, kind: 'lock-hung', state: 'lock-out.3', point: 'Q1', lock: '17' })
  advance(anywhere, { ...stamp, kind: 'note', text: 'The door was found open.' })

  // @ts-expect-error the question has no third answer
  advance(window, { ...stamp, kind: 'choice', state: 'window', answer: 'answer-3', ...ticks })
  // @ts-expect-error a question is answered, not ticked off
  advance(window, { ...stamp, kind: 'done', state: 'window', ...ticks })
  // @ts-expect-error the answer belongs to another step
  advance(window, { ...stamp, kind: 'choice', state: 'prepare.1', answer: 'series-s', ...ticks })
  // @ts-expect-error no step can be passed over as a deviation where a lock belongs
  advance(lock, { ...stamp, kind: 'deviation', state: 'lock-out.3', reason: 'in a hurry', role: 'qualified' })
  // @ts-expect-error this step locks Q1, not V1
  advance(lock, { ...stamp, kind: 'lock-hung', state: 'lock-out.3', point: 'V1', lock: '17' })
  // @ts-expect-error there is no second notice to acknowledge
  advance(lock, { ...stamp, kind: 'done', state: 'lock-out.3', acknowledged: ['notice-2'], boxes: [] })
  // @ts-expect-error while the step is not known, nothing that belongs to one step can be answered
  advance(anywhere, { ...stamp, kind: 'choice', state: 'window', answer: 'answer-1', ...ticks })
  // @ts-expect-error a run begins by being opened, not by an answer to a later step
  advance(start(), { ...stamp, kind: 'finished', state: 'end.finish', ...ticks })
}
