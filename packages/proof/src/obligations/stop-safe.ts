import type { Failure, Obligation } from '../obligation.js'
import { before } from '../vocabulary.js'

export const stopSafe: Obligation = {
  id: 'stop-safe',
  statement: 'a stop never leaves opened equipment that could be energized',
  sources: ['29 CFR 1910.147(c)(1)'],
  danger: 'The next person finds the machine open and idle, and nothing keeps energy from what is bare.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

function what(_failure: Failure): string {
  return 'Work stops here with the machine not inspected since hands were in it, and what they were in may still be fed or hold energy.'
}

function mend({ state }: Failure): string {
  return `Add \`::inspect\` ${before(state)} so that it is left closed up, or keep everything that was worked on locked and relieved until here.`
}
