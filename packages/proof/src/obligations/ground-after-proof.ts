import { linesOf, restraintOf } from '../arrangement.js'
import type { Failure, Obligation } from '../obligation.js'
import { before, faultySources, naming, quoted } from '../vocabulary.js'

export const groundAfterProof: Obligation = {
  id: 'ground-after-proof',
  statement: 'earths and shorts go only onto what was proven dead',
  sources: ['29 CFR 1910.333(b)(2)(iv)', 'EN 50110-1', 'common practice'],
  danger: 'An earth put onto a live conductor is a short circuit in the hands of whoever holds it.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

function what(failure: Failure): string {
  const { machine, state } = failure
  const sources = faultySources(failure)
  const all = state.kind === 'restrain' ? state.restraints : []
  const earths = all.filter((id) => {
    const { kind, holds } = restraintOf(machine, id)
    return (kind === 'earth' || kind === 'short') && holds.some((held) => sources.includes(held))
  })
  return `${quoted(earths)} goes onto ${quoted(sources)} before it was proven dead.`
}

function mend(failure: Failure): string {
  const { machine, state } = failure
  const sources = faultySources(failure)
  const never = sources.filter((id) => linesOf(machine, 'prove', id).length === 0)
  const named = never.length > 0 ? never : sources
  return `Add \`::prove{of=${naming(named)} with=... known=... role=... wear=...}\` ${before(state)}, after the locks and releases.`
}
