import type { Failure, Obligation } from '../obligation.js'
import { before, misses } from '../vocabulary.js'

export const operateClosed: Obligation = {
  id: 'operate-closed',
  statement: 'the machine is run by its own controls only while closed up and clear',
  sources: ['29 CFR 1910.147(a)(2)(ii)'],
  danger: 'A machine that runs with its guards off or with people in reach catches whoever stands there.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

function what(failure: Failure): string {
  const reasons: string[] = []
  if (misses(failure, 'inspected')) reasons.push('it was not inspected since hands were last in it')
  if (misses(failure, 'clear')) reasons.push('people may be in reach')
  return `The machine is run by its own controls although ${reasons.join(' and ')}.`
}

function mend(failure: Failure): string {
  const steps: string[] = []
  if (misses(failure, 'inspected')) steps.push('`::inspect`')
  if (misses(failure, 'clear')) steps.push('`::clear`')
  return `Add ${steps.join(' and ')} ${before(failure.state)}, after the last step with hands in.`
}
