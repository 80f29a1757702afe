import type { Failure, Obligation } from '../obligation.js'
import { before, faultySources, naming, pointsNeeded, quoted, whyFed } from '../vocabulary.js'

export const relockAfterTest: Obligation = {
  id: 'relock-after-test',
  statement: 'after a test with power on, work starts again only behind a full lockout',
  sources: ['29 CFR 1910.147(f)(1)(v)'],
  danger: 'After a test the machine stands ready to start, and people go back in as if the old locks still held.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

function what(failure: Failure): string {
  const sources = faultySources(failure)
  return `Hands go back to work while ${quoted(sources)} may be fed again: after power was back, ${whyFed(failure, sources, 'locked')}.`
}

function mend(failure: Failure): string {
  const points = pointsNeeded(failure.machine, faultySources(failure))
  return (
    `Lock out in full again ${before(failure.state)}: tell people, shut down, \`::lock{at=${naming(points)}}\`, relieve, try out and prove. ` +
    '`::repeat{section=...}` does the section of the first lockout once more.'
  )
}
