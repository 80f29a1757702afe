import { linesOf, thingsOf } from '../arrangement.js'
import type { Failure, Obligation } from '../obligation.js'
import { before, elsewhere, misses, quoted } from '../vocabulary.js'

export const controlOrder: Obligation = {
  id: 'control-order',
  statement: 'people are told and the machine is shut down before locks and blocks go on',
  sources: ['29 CFR 1910.147(c)(9)', '29 CFR 1910.147(d)(1)-(4)'],
  danger: 'Cutting power to a machine that runs, or that somebody is using, stops it where nobody expects it.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

function what(failure: Failure): string {
  const missing: string[] = []
  if (misses(failure, 'told')) missing.push('people were told')
  if (misses(failure, 'stopped')) missing.push('the machine was shut down')
  return `${act(failure)} before ${missing.join(' and before ')}.`
}

function act({ state }: Failure): string {
  const things = quoted(thingsOf(state))
  if (state.kind === 'restrain') return `${things} goes on`
  return state.kind === 'isolate' ? `${things} is switched off` : `${things} is locked`
}

function mend(failure: Failure): string {
  const { machine, state } = failure
  const steps: string[] = []
  if (misses(failure, 'told')) steps.push('`:::notify[who]`')
  if (misses(failure, 'stopped')) steps.push('`:::shutdown`')
  const there = [
    ...(misses(failure, 'told') ? linesOf(machine, 'notify') : []),
    ...(misses(failure, 'stopped') ? linesOf(machine, 'shutdown') : [])
  ]
  return `Add ${steps.join(' and ')} ${before(state)}.${elsewhere(there, state)}`
}
