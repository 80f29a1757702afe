import type { Diagnostic } from '@lockwright/language'
import { type Machine, type StateId, stateOf } from '@lockwright/machine'
import type { RunPort } from '../run-port.js'
import { leavesStep } from '../session/leaves-step.js'
import type { Answers, StepAnswers } from './answers.js'
import { fault } from './fault.js'
import { printedNumbers } from './printed-number.js'

export type GivenAlready =
  | { readonly ok: true; readonly count: number }
  | { readonly ok: false; readonly fault: Diagnostic }

/** How many answers of a whole sheet the record holds already, or why it does not begin like this record. */
export function givenAlready({ machine, entries, snapshot }: RunPort, answers: Answers['answers']): GivenAlready {
  const left = entries.flatMap(({ event, state }, index): readonly StateId[] => {
    const next = entries[index + 1]?.state ?? snapshot.state
    return event.kind !== 'opened' && (leavesStep(event) || next !== state) ? [state] : []
  })
  for (const [index, state] of left.entries()) {
    const answer = answers[index]
    if (answer?.kind === 'step' && addresses(machine, answer, state)) continue
    const place = answer?.place ?? answers.at(-1)?.place
    if (place === undefined) break
    return {
      ok: false,
      fault: fault(
        'answers-order',
        place,
        `The run has done \`${state}\` (${stateOf(machine, state).title}) as its step ${index + 1}; the sheet does not say so here.`,
        'Give the whole sheet from its first step on, with one entry a step, as it was entered before.'
      )
    }
  }
  return { ok: true, count: Math.min(left.length, answers.length) }
}

/** Whether an entry belongs to a state: by its id, by the step's, or by the number on the sheet for every generation. */
export function addresses(machine: Machine, { at, number }: StepAnswers, state: StateId): boolean {
  const { step } = stateOf(machine, state)
  return (
    (at === '' || at === state || at === step) && (number === null || printedNumbers(machine).get(state) === number)
  )
}
