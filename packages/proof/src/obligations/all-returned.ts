import type { Failure, Obligation } from '../obligation.js'
import { before, faultyPoints, faultyRestraints, isOrAre, joined, misses, naming, quoted } from '../vocabulary.js'

export const allReturned: Obligation = {
  id: 'all-returned',
  statement: 'returned to service means every lock and restraint off, inspected and clear',
  sources: ['29 CFR 1910.147(e)'],
  danger:
    'A machine that is handed back with a lock, a block or a person still in it is started by someone who does not know.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

function what(failure: Failure): string {
  const points = faultyPoints(failure)
  const restraints = faultyRestraints(failure)
  const reasons: string[] = []
  if (points.length > 0)
    reasons.push(`${quoted(points)} may not be back in ${points.length === 1 ? 'its' : 'their'} normal position`)
  if (restraints.length > 0) reasons.push(`${quoted(restraints)} may still be on`)
  if (misses(failure, 'inspected')) reasons.push('the machine was not inspected since hands were last in it')
  if (misses(failure, 'clear')) reasons.push('people may be in reach')
  return `The machine is returned to service although ${joined(reasons)}.`
}

function mend(failure: Failure): string {
  const { machine, state } = failure
  const points = faultyPoints(failure)
  const restraints = faultyRestraints(failure)
  const steps: string[] = []
  if (restraints.length > 0) steps.push(`\`:::remove{restraint=${naming(restraints)}}\``)
  if (misses(failure, 'inspected')) steps.push('`:::inspect`')
  if (misses(failure, 'clear')) steps.push('`:::clear`')
  const normal = (on: 'on' | 'off') =>
    points.filter((id) => machine.points.some((point) => point.id === id && point.normal === on))
  if (points.length > 0) steps.push(`\`:::unlock{at=${naming(points)}}\``)
  if (normal('on').length > 0) steps.push(`\`:::energize{at=${naming(normal('on'))}}\``)
  const off = normal('off')
  const stay = off.length === 0 ? '' : ` ${quoted(off)} ${isOrAre(off)} off in service.`
  return `Add ${joined(steps)} ${before(state)} on every way that comes here, or end that way with \`::stop[reason]\`.${stay}`
}
