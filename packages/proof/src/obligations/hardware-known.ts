import type { Failure, Obligation } from '../obligation.js'
import { before, faultyAxes, quoted } from '../vocabulary.js'

export const hardwareKnown: Obligation = {
  id: 'hardware-known',
  statement: 'no branch is taken on a generation that was not identified first',
  sources: ['common practice'],
  danger: 'Whoever guesses the generation follows the steps of another machine.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

function what(failure: Failure): string {
  return `The way parts by ${quoted(faultyAxes(failure))} before anyone has identified it.`
}

function mend(failure: Failure): string {
  return `Add \`::identify{hardware=${faultyAxes(failure).join(' ')}}\` ${before(failure.state)}, on every way that comes here.`
}
