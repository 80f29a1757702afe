import { thingsOf } from '../arrangement.js'
import type { Failure, Obligation } from '../obligation.js'
import { before, moved, undoneLine, undoneSentence } from '../vocabulary.js'

export const toldBeforeStart: Obligation = {
  id: 'told-before-start',
  statement: 'people are told before the machine can start',
  sources: ['29 CFR 1910.147(c)(9)', '29 CFR 1910.147(e)(2)(ii)', '29 CFR 1910.333(b)(2)(v)(B)'],
  danger: 'People who think that the machine is locked out reach into it as it starts.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

function what(failure: Failure): string {
  const { state } = failure
  return `${moved(thingsOf(state), state.kind)} before people were told that the machine can start.${undoneSentence(failure, ['told'])}`
}

function mend(failure: Failure): string {
  const { machine, state } = failure
  const line = undoneLine(failure, 'told')
  const where =
    machine.order === 'electrical'
      ? `${before(state)}, after the last inspection${line}: with this order people are warned before the locks come off`
      : `${before(state)}, after the locks are off${line}`
  return `Add \`::notify[who]\` ${where}.`
}
