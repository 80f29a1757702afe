import { linesOf, thingsOf } from '../arrangement.js'
import type { Failure, Obligation } from '../obligation.js'
import { before, elsewhere, misses, quoted, undoneSentence, unique } from '../vocabulary.js'

export const controlOrder: Obligation = {
  id: 'control-order',
  statement: 'people are told and the machine is shut down before locks and blocks go on',
  sources: ['29 CFR 1910.147(c)(9)', '29 CFR 1910.147(d)(1)-(4)'],
  danger: 'Cutting power to a machine that runs, or that somebody is using, stops it where nobody expects it.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

/** What is not so here, in the order in which it is done. */
function missed(failure: Failure): readonly ('told' | 'stopped')[] {
  return (['told', 'stopped'] as const).filter((fact) => misses(failure, fact))
}

function what(failure: Failure): string {
  const missing = missed(failure)
  const words = missing.map((fact) => (fact === 'told' ? 'people were told' : 'the machine was shut down'))
  return `${act(failure)} before ${words.join(' and before ')}.${undoneSentence(failure, missing)}`
}

function act({ state }: Failure): string {
  const things = quoted(thingsOf(state))
  if (state.kind === 'restrain') return `${things} goes on`
  return state.kind === 'isolate' ? `${things} is switched off` : `${things} is locked`
}

function mend(failure: Failure): string {
  const { machine, state, undone } = failure
  const missing = missed(failure)
  const steps = missing.map((fact) => (fact === 'told' ? '`::notify[who]`' : '`::shutdown`'))
  const lines = unique(missing.flatMap((fact) => undone[fact]?.span.line ?? []))
  const after = lines.length === 0 ? '' : ` and after line ${Math.max(...lines)}`
  // A step that was undone on the way shown has been named already.
  const others = missing.filter((fact) => undone[fact] === undefined)
  const there = others.flatMap((fact) => linesOf(machine, fact === 'told' ? 'notify' : 'shutdown'))
  return `Add ${steps.join(' and ')} ${before(state)}${after}.${elsewhere(there, state)}`
}
