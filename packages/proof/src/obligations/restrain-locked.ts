import { restraintOf } from '../arrangement.js'
import type { Failure, Obligation } from '../obligation.js'
import {
  before,
  faultyRestraints,
  isOrAre,
  naming,
  openPoints,
  pointsNeeded,
  pointsNot,
  quoted
} from '../vocabulary.js'

export const restrainLocked: Obligation = {
  id: 'restrain-locked',
  statement: 'pins, blocks and earths are set by hand only behind locks',
  sources: ['29 CFR 1910.147(d)(4)', '29 CFR 1910.147(d)(5)'],
  danger: 'Hands are in the machine while a restraint is set: a device that is not locked can start it over them.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

function heldBy({ machine }: Failure, restraints: ReturnType<typeof faultyRestraints>) {
  return [...new Set(restraints.flatMap((id) => restraintOf(machine, id).holds))]
}

function what(failure: Failure): string {
  const restraints = faultyRestraints(failure)
  const held = heldBy(failure, restraints)
  const needed = pointsNeeded(failure.machine, held)
  const open = openPoints(failure, needed, 'locked')
  const points = open.length > 0 ? open : needed
  return (
    `${quoted(restraints)} ${restraints.length === 1 ? 'goes' : 'go'} on while ${quoted(held)}, which ` +
    `${isOrAre(held)} held by it, may still be fed: ${pointsNot(points, 'locked')}.`
  )
}

function mend(failure: Failure): string {
  const points = pointsNeeded(failure.machine, heldBy(failure, faultyRestraints(failure)))
  return `Add \`::lock{at=${naming(points)}}\` ${before(failure.state)}, or move this step behind the locks.`
}
