import type { PathStep } from '@lockwright/language'
import { tellLedger, unpack } from '@lockwright/machine'
import type { Exploration, Move } from './explore.js'

/** The shortest way to a configuration as numbered steps; the last one is the step that fails, before it is done. */
export function pathTo(exploration: Exploration, configuration: number): readonly PathStep[] {
  const { model } = exploration
  const { machine } = model
  const tell = (ledger: Move['after']): string => tellLedger(machine, unpack(model, ledger))
  const steps = exploration.wayTo(configuration).flatMap((move): PathStep[] => {
    const title = titleOf(move)
    return title === null ? [] : [{ line: move.state.span.line, title, ledger: tell(move.after) }]
  })
  const state = machine.states[exploration.stateOf[configuration] ?? -1]
  const ledger = exploration.ledgerOf[configuration]
  if (state === undefined || ledger === undefined) throw new Error('the configuration is not of this exploration')
  return [...steps, { line: state.span.line, title: state.title, ledger: tell(ledger) }]
}

/** A move in words: the step, and the answer where it asked for one. */
function titleOf({ state, exit }: Move): string | null {
  switch (exit.on) {
    case 'done':
      return state.kind === 'timer' ? `${state.title}: the clock starts` : state.title
    case 'answer':
      return `${state.title} Answer: ${exit.label}`
    case 'identified':
      return `${state.title}: ${exit.value}`
    case 'value':
      return `${state.title}: ${exit.value}`
    case 'inside':
      return state.exits.length > 1 ? `${state.title}: within limits` : state.title
    case 'again':
      return `${state.title}: out of limits, taken again`
    case 'outside':
      return `${state.title}: stays out of limits`
    case 'late':
      return `${state.title}: not in time`
  }
}
