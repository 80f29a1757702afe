import { thingsOf } from '../arrangement.js'
import type { Failure, Obligation } from '../obligation.js'
import { before, moved } from '../vocabulary.js'

export const toldBeforeStart: Obligation = {
  id: 'told-before-start',
  statement: 'people are told before the machine can start',
  sources: ['29 CFR 1910.147(c)(9)', '29 CFR 1910.147(e)(2)(ii)', '29 CFR 1910.333(b)(2)(v)(B)'],
  danger: 'People who think that the machine is locked out reach into it as it starts.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

function what({ state }: Failure): string {
  return `${moved(thingsOf(state), state.kind)} before people were told that the machine can start.`
}

function mend({ machine, state }: Failure): string {
  const where =
    machine.order === 'electrical'
      ? `${before(state)}, after the last inspection: with this order people are warned before the locks come off`
      : `${before(state)}, after the locks are off`
  return `Add \`:::notify[who]\` ${where}.`
}
