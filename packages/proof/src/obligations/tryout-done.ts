import { linesOf } from '../arrangement.js'
import type { Failure, Obligation } from '../obligation.js'
import { before, elsewhere, orHyphens } from '../vocabulary.js'

export const tryoutDone: Obligation = {
  id: 'tryout-done',
  statement: 'the start control is tried after the last lock and before work',
  sources: ['29 CFR 1910.147 Appendix A'],
  danger: 'A lock on the wrong device looks right until the machine is started: better by the control than by a fault.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

function what({ machine }: Failure): string {
  if (linesOf(machine, 'tryout').length === 0) return 'Hands go to work although no step tries the start control.'
  return 'Hands go to work although the start control was not tried since a lock last went on or came off.'
}

function mend({ machine, state }: Failure): string {
  const tries = linesOf(machine, 'tryout')
  const none = ' A machine with no start control says why in the front matter: `no-start-control: ...`.'
  const more = tries.length === 0 ? none : elsewhere(tries, state)
  return `Add \`::clear\` and \`::tryout\` after the last lock and ${before(state)}.${more}${orHyphens(state)}`
}
