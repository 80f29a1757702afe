import { linesOf } from '../arrangement.js'
import type { Failure, Obligation } from '../obligation.js'
import { before, faultySources, isOrAre, naming, pointsNeeded, quoted, whyFed } from '../vocabulary.js'

export const relieveIsolated: Obligation = {
  id: 'relieve-isolated',
  statement: 'energy is not let out while something still feeds it',
  sources: ['29 CFR 1910.147(d)(5)'],
  danger: 'What is let out comes back at once, and whoever lets it out stands in the way of the full supply.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

function what(failure: Failure): string {
  const sources = faultySources(failure)
  const needed = failure.machine.order === 'electrical' ? 'off' : 'locked'
  const why = whyFed(failure, sources, needed)
  return `${quoted(sources)} ${isOrAre(sources)} relieved while it may still be fed: ${why}.`
}

function mend(failure: Failure): string {
  const { machine, state } = failure
  const kind = machine.order === 'electrical' ? 'isolate' : 'lock'
  const points = pointsNeeded(machine, faultySources(failure))
  const never = points.filter((point) => !linesOf(machine, kind, point).some((line) => line < state.span.line))
  const named = never.length > 0 ? never : points
  return `Add \`::${kind}{at=${naming(named)}}\` ${before(state)}, or move this step behind it; what feeds it is let out first.`
}
