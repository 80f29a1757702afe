import { firstLedger, passedBy, type State } from '@lockwright/machine'
import type { Exploration } from './explore.js'

/** What a step makes true of the machine as a whole, and a later one can undo. */
export type Fact = 'told' | 'stopped' | 'tried' | 'inspected' | 'clear'

/** For each fact that was undone on a way and not made true again: the last step that undoes it. */
export type Undone = Readonly<Partial<Record<Fact, State>>>

const facts: readonly Fact[] = ['told', 'stopped', 'tried', 'inspected', 'clear']

/** Read off the shortest way to a configuration. */
export function undoneOnWay({ model, wayTo }: Exploration, configuration: number): Undone {
  const undone: Partial<Record<Fact, State>> = {}
  let before = firstLedger(model)
  for (const { state, after } of wayTo(configuration)) {
    for (const fact of facts) {
      const byte = model.layout[fact]
      if (after[byte] === 1) delete undone[fact]
      else if (
        before[byte] === 1 ||
        (undone[fact] !== undefined && undoes(state, fact) && !passedBy(model, before, state))
      )
        undone[fact] = state
    }
    before = after
  }
  return undone
}

function undoes({ turns }: State, fact: Fact): boolean {
  return turns.some(({ does }) => does.some((effect) => effect.does === 'set' && effect.flag === fact && !effect.to))
}
