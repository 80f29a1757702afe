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

/** What brings the machine back from where it stands on the way shown, in the order in which it has to be done. */
function mend(failure: Failure): string {
  const { machine, state, ledger } = failure
  const electrical = machine.order === 'electrical'
  const restraints = faultyRestraints(failure)
  const faulty = machine.points.filter(({ id }) => faultyPoints(failure).includes(id))
  const stillOn = faulty.filter(({ id, normal }) => normal === 'off' && ledger.points[id] === 'on').map(({ id }) => id)
  const locked = faulty.filter(({ id }) => ledger.points[id] === 'locked').map(({ id }) => id)
  const unlocked = electrical ? locked : [...locked, ...stillOn]
  const on = faulty.filter(({ id, normal }) => normal === 'on' && ledger.points[id] !== 'on').map(({ id }) => id)
  const elsewhere = faulty.filter(({ id, normal }) => ledger.points[id] === normal).map(({ id }) => id)
  const inspect = restraints.length > 0 || !ledger.inspected || misses(failure, 'inspected')
  // With the electrical order an inspection asks for a new warning, which comes before the locks come off.
  const tell = !ledger.told || unlocked.length > 0 || (electrical && inspect)
  const warned = unlocked.length > 0 || on.length > 0
  const clear = restraints.length > 0 || !ledger.clear || misses(failure, 'clear')
  const steps = [
    ...step(stillOn, electrical ? 'isolate{at' : 'lock{at'),
    ...(restraints.length > 0 && !ledger.clear ? ['`::clear`'] : []),
    ...step(restraints, 'remove{restraint'),
    ...(inspect ? ['`::inspect`'] : []),
    ...(clear ? ['`::clear`'] : []),
    ...(electrical && tell && warned ? ['`::notify[who]`'] : []),
    ...step(unlocked, 'unlock{at'),
    ...(electrical && unlocked.length > 0 && on.length > 0 ? ['`::clear`'] : []),
    ...(!electrical && tell && on.length > 0 ? ['`::notify[who]`'] : []),
    ...step(on, 'energize{at')
  ]
  const order = steps.length > 1 ? ', in this order,' : ''
  const off = faulty.filter(({ normal }) => normal === 'off').map(({ id }) => id)
  const stay = off.length === 0 ? '' : ` ${quoted(off)} ${isOrAre(off)} off in service.`
  const more =
    elsewhere.length === 0 ? '' : ` On another way than the one shown ${quoted(elsewhere)} must be put back too.`
  return `Add ${joined(steps)}${order} ${before(state)} on every way that comes here, or end that way with \`::stop[reason]\`.${stay}${more}`
}

function step(ids: readonly string[], opening: string): readonly string[] {
  return ids.length === 0 ? [] : [`\`::${opening}=${naming(ids)}}\``]
}
