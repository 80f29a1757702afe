import { type Condition, type Effect, type Machine, type Snapshot, stateOf } from '@lockwright/machine'
import { obligations } from '@lockwright/proof'
import type { Page } from '../step/screen.js'
import { visible } from '../text/visible.js'

/** Which obligations hold this step back until they are kept, and which later ones rest on it; each with its source. */
export function whyPage(machine: Machine, snapshot: Snapshot): Page {
  const state = stateOf(machine, snapshot.state)
  const needed = obligationsOf(
    state.turns.flatMap(({ needs }) => needs),
    () => true
  )
  const effects = state.turns.flatMap(({ does }) => does)
  const everything = machine.states.flatMap(({ turns }) => turns.flatMap(({ needs }) => needs))
  const resting = obligationsOf(everything, (condition) => effects.some((effect) => serves(effect, condition)))
  const lines = [
    ...(needed.length === 0 ? [] : ['Before this step:', ...needed.flatMap(tell)]),
    ...(resting.length === 0
      ? []
      : ['What later steps rest on:', ...resting.filter((id) => !needed.includes(id)).flatMap(tell)])
  ]
  return {
    title: `Why: ${visible(state.title)}`,
    lines: (lines.length === 0 ? ['No obligation speaks of this step: the procedure asks for it.'] : lines).map(visible)
  }
}

type Needs = Machine['states'][number]['turns'][number]['needs']

function obligationsOf(needs: Needs, concerns: (condition: Condition) => boolean): readonly string[] {
  const rungs = needs.flatMap((need) => need.rungs).filter(({ condition }) => parts(condition).some(concerns))
  return [...new Set(rungs.map(({ obligation }) => obligation))]
}

function tell(id: string): readonly string[] {
  const obligation = obligations.find((candidate) => candidate.id === id)
  if (obligation === undefined) return [`- ${id}`]
  return [`- ${id}: ${obligation.statement}`, `  ${obligation.danger}`, `  Source: ${obligation.sources.join('; ')}`]
}

function parts(condition: Condition): readonly Condition[] {
  return condition.is === 'all' || condition.is === 'any' ? condition.of.flatMap(parts) : [condition]
}

/** Whether what the effect brings about is what the condition asks for. */
function serves(effect: Effect, condition: Condition): boolean {
  switch (effect.does) {
    case 'set':
      return effect.to && condition.is === effect.flag
    case 'move':
      if (effect.to === 'on') return condition.is === 'normal' && condition.point === effect.point
      return effect.to === 'locked'
        ? ['isolated', 'feeds-locked', 'some-point-locked'].includes(condition.is)
        : condition.is === 'cut' || (condition.is === 'off' && condition.point === effect.point)
    case 'put':
      return effect.to === 'on'
        ? condition.is === 'dead'
        : (condition.is === 'restraint-off' && condition.restraint === effect.restraint) ||
            condition.is === 'unrestrained'
    case 'let-out':
      return condition.is === 'still' && condition.source === effect.source
    case 'verify':
      return condition.is === 'proven' && condition.source === effect.source
    case 'permit':
      return condition.is === 'given' && condition.permit === effect.permit
    case 'know':
      return condition.is === 'known' && condition.axis === effect.axis
    case 'unverify':
    case 'touch':
    case 'untouch':
    case 'end-permits':
    case 'rewind-unfed':
      return false
  }
}
