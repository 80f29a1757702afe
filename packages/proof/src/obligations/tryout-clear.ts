import { linesOf } from '../arrangement.js'
import type { Failure, Obligation } from '../obligation.js'
import { before, misses } from '../vocabulary.js'

export const tryoutClear: Obligation = {
  id: 'tryout-clear',
  statement: 'the start control is tried with nobody exposed and the locks on',
  sources: ['29 CFR 1910.147 Appendix A'],
  danger: 'If a lock failed to hold, the machine starts when the control is tried, over whoever is still in reach.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

function what(failure: Failure): string {
  const reasons: string[] = []
  if (misses(failure, 'clear')) reasons.push('people may be in reach')
  if (misses(failure, 'some-point-locked')) reasons.push('no lock is on')
  return `The start control is tried while ${reasons.join(' and ')}.`
}

function mend(failure: Failure): string {
  const advice: string[] = []
  if (misses(failure, 'some-point-locked')) {
    const locks = linesOf(failure.machine, 'lock')
    const first = locks[0]
    advice.push(
      first === undefined
        ? `Add \`::lock{at=...}\` ${before(failure.state)}.`
        : `Move this step behind the locks, which go on from line ${first}.`
    )
  }
  if (misses(failure, 'clear'))
    advice.push(`Add \`::clear\` ${before(failure.state)}, after the last step with hands in.`)
  return advice.join(' ')
}
