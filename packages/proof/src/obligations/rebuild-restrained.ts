import { restraintsHolding } from '../arrangement.js'
import type { Failure, Obligation } from '../obligation.js'
import { before, faultySources, naming, quoted } from '../vocabulary.js'

export const rebuildRestrained: Obligation = {
  id: 'rebuild-restrained',
  statement: 'energy that can come back by itself is restrained for as long as work lasts',
  sources: ['29 CFR 1910.147(d)(5)(ii)'],
  danger: 'Energy that comes back by itself strikes after the test has shown none, with hands already in.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

function what(failure: Failure): string {
  const clauses = faultySources(failure).map((id) => {
    const holders = restraintsHolding(failure.machine, id).map((restraint) => restraint.id)
    const why = holders.length === 0 ? 'no restraint is declared that holds it' : `${quoted(holders, 'or')} is not on`
    return `\`${id}\` can come back by itself: ${why}`
  })
  return `Hands go to work while ${clauses.join('; and ')}.`
}

function mend(failure: Failure): string {
  return faultySources(failure)
    .map((id) => {
      const holder = restraintsHolding(failure.machine, id)[0]
      return holder === undefined
        ? `Declare under \`restraints:\` what holds \`${id}\` back, and put it on with \`::restrain\` ${before(failure.state)}.`
        : `Add \`::restrain{with=${naming([holder.id])}}\` ${before(failure.state)}, and take it off only after the work.`
    })
    .join(' ')
}
