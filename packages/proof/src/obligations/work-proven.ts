import { linesOf } from '../arrangement.js'
import type { Failure, Obligation } from '../obligation.js'
import { atLines, before, faultySources, naming, orHyphens, quoted } from '../vocabulary.js'

export const workProven: Obligation = {
  id: 'work-proven',
  statement:
    'hands-on work touches only sources that were verified dead, with nothing since that could bring energy back',
  sources: ['29 CFR 1910.147(d)(6)', '29 CFR 1910.333(b)(2)(iv)'],
  danger:
    'The wrong device may have been locked, or one of its contacts welded shut: only a test at the work place shows it.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

/** Sources at fault that no step verifies, and those whose verification does not count here. */
function bySteps(failure: Failure) {
  const sources = faultySources(failure)
  const verified = (id: string) => linesOf(failure.machine, 'prove', id).length > 0
  return { never: sources.filter((id) => !verified(id)), lost: sources.filter(verified) }
}

function what(failure: Failure): string {
  const { never, lost } = bySteps(failure)
  const clauses: string[] = []
  if (never.length > 0) clauses.push(`${quoted(never)} was verified dead by no step`)
  if (lost.length > 0) {
    const lines = lost.flatMap((id) => linesOf(failure.machine, 'prove', id))
    clauses.push(
      `the verification of ${quoted(lost)} at ${atLines([...new Set(lines)])} was passed by or counts no more`
    )
  }
  return `Hands go to work on what may not be dead: ${clauses.join('; ')}.`
}

function mend(failure: Failure): string {
  const { never, lost } = bySteps(failure)
  const advice: string[] = []
  if (never.length > 0) {
    advice.push(`Add \`::prove{of=${naming(never)} with=...}\` after locks and releases and ${before(failure.state)}.`)
  }
  if (lost.length > 0) {
    advice.push(
      `Verify ${quoted(lost)} again ${before(failure.state)}, after the last step that could bring energy back.`
    )
  }
  return advice.join(' ') + orHyphens(failure.state)
}
