import { thingsOf } from '../arrangement.js'
import type { Failure, Obligation } from '../obligation.js'
import { before, moved, undoneLine, undoneSentence } from '../vocabulary.js'

export const clearBeforeEnergy: Obligation = {
  id: 'clear-before-energy',
  statement: 'people are clear before locks come off and before power',
  sources: ['29 CFR 1910.147(e)(2)(i)', '29 CFR 1910.333(b)(2)(v)(D)'],
  danger: 'Whoever is still in reach when energy comes back is struck, caught or burned by it.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

function what(failure: Failure): string {
  const { state } = failure
  return `${moved(thingsOf(state), state.kind)} while people may be in reach.${undoneSentence(failure, ['clear'])}`
}

function mend(failure: Failure): string {
  const { machine, state } = failure
  const line = undoneLine(failure, 'clear')
  const after =
    machine.order === 'electrical' && state.kind === 'energize'
      ? `after the unlock${line}: with this order people are looked for again once the locks are off`
      : `after the last step with hands in${line}`
  return `Add \`::clear\` ${before(state)}, ${after}.`
}
