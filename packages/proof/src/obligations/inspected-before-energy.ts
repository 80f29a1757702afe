import { thingsOf } from '../arrangement.js'
import type { Failure, Obligation } from '../obligation.js'
import { before, moved, undoneLine, undoneSentence } from '../vocabulary.js'

export const inspectedBeforeEnergy: Obligation = {
  id: 'inspected-before-energy',
  statement: 'the machine is inspected, tools and jumpers out, before locks come off and before power',
  sources: ['29 CFR 1910.147(e)(1)', '29 CFR 1910.333(b)(2)(v)(A)'],
  danger:
    'A tool, a jumper or an open guard that is left behind throws parts, shorts out or catches someone once power is on.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

function what(failure: Failure): string {
  const { state } = failure
  return `${moved(thingsOf(state), state.kind)} although the machine was not inspected since hands were last in it.${undoneSentence(failure, ['inspected'])}`
}

function mend(failure: Failure): string {
  return `Add \`::inspect\` ${before(failure.state)}, after the last step with hands in${undoneLine(failure, 'inspected')}.`
}
