import { restraintOf } from '../arrangement.js'
import type { Failure, Obligation } from '../obligation.js'
import { before, faultyRestraints, quoted, unique } from '../vocabulary.js'

export const removeClear: Obligation = {
  id: 'remove-clear',
  statement: 'blocks and pins come out only with people clear',
  sources: ['29 CFR 1910.147(e)(2)(i)'],
  danger: 'What the block or pin held moves when it comes out, over whoever is still in reach.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

function what(failure: Failure): string {
  const restraints = faultyRestraints(failure)
  const held = unique(restraints.flatMap((id) => restraintOf(failure.machine, id).holds))
  return `${quoted(restraints)} ${restraints.length === 1 ? 'comes' : 'come'} off, and ${quoted(held)} can move, while people may be in reach.`
}

function mend(failure: Failure): string {
  return `Add \`::clear\` ${before(failure.state)}, after the last step with hands in.`
}
