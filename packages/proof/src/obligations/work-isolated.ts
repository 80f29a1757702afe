import { statuses } from '@lockwright/machine'
import { feedersOf, linesOf } from '../arrangement.js'
import type { Failure, Obligation } from '../obligation.js'
import {
  atLines,
  before,
  faultySources,
  isOrAre,
  naming,
  openPoints,
  orHyphens,
  pointsNeeded,
  quoted,
  unique,
  whyFed
} from '../vocabulary.js'

export const workIsolated: Obligation = {
  id: 'work-isolated',
  statement: 'hands-on work touches only sources whose every feed is locked',
  sources: ['29 CFR 1910.147(d)(3)', '29 CFR 1910.147(d)(4)'],
  danger: 'A device that is not locked can be switched on by anyone while hands are in the machine.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

function what(failure: Failure): string {
  const sources = faultySources(failure)
  return `Hands go to work while ${quoted(sources)} may still be fed: ${whyFed(failure, sources, 'locked')}.`
}

function mend(failure: Failure): string {
  const { machine, state } = failure
  const sources = faultySources(failure)
  const open = openPoints(failure, pointsNeeded(machine, sources), 'locked')
  const never = open.filter((point) => linesOf(machine, 'lock', point).length === 0)
  const known = open.filter((point) => !never.includes(point))
  const advice: string[] = []
  if (never.length > 0) advice.push(`Add \`::lock{at=${naming(never)}}\` ${before(state)}.`)
  if (known.length > 0) advice.push(lockFirst(failure, known))
  const held = unique(sources.flatMap((id) => feedersOf(machine, id))).filter((id) => holdsEnergy(failure, id))
  if (held.length > 0) advice.push(`Relieve or restrain ${quoted(held)} ${before(state)}.`)
  if (advice.length === 0) advice.push(`Let every way to this step pass the locks of what feeds ${quoted(sources)}.`)
  return (
    [...advice, 'A source that must stay on is named in `leaves=`, with `why=` and `permit=`.'].join(' ') +
    orHyphens(state)
  )
}

/** For points that some step locks, but not on the way shown, or not in time. */
function lockFirst({ machine, state }: Failure, points: readonly string[]): string {
  const lines = unique(points.flatMap((point) => linesOf(machine, 'lock', point)))
  const where = `${quoted(points)} ${isOrAre(points)} locked at ${atLines(lines)}`
  return lines.every((line) => line > state.span.line)
    ? `${where}: move this step behind the locks, or lock first.`
    : `${where}: let every way to this step pass there, with no unlock after it.`
}

/** Whether the source is cut off on the way shown, and could feed others all the same. */
function holdsEnergy({ machine, ledger }: Failure, id: string): boolean {
  return statuses(machine, ledger).some(({ source, isolated, dead }) => source === id && isolated && !dead)
}
