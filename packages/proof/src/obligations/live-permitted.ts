import { fedFrom, feedersOf } from '../arrangement.js'
import type { Failure, Obligation } from '../obligation.js'
import { parts, quoted, unique } from '../vocabulary.js'

export const livePermitted: Obligation = {
  id: 'live-permitted',
  statement:
    'test with power on has a reason, a permit, a qualified person, protective equipment, and everything not under test dead or declared apart',
  sources: ['29 CFR 1910.333(a)(1)', '29 CFR 1910.333(c)(2)'],
  danger: 'Hands near live parts are hurt by shock, arc or movement, and by whatever else was left on beside them.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

/** What the failure says, sorted by what has to be done about it. */
function sorted(failure: Failure) {
  const { machine, state } = failure
  const near = fedFrom(machine, state.kind === 'live' || state.kind === 'measure' ? state.near : [])
  const all = failure.faults.flatMap(({ condition }) => parts(condition))
  const sources = all.flatMap((part) => (part.is === 'dead' || part.is === 'proven' ? [part.source] : []))
  return {
    others: unique(sources.filter((source) => !near.includes(source))),
    permits: unique(all.flatMap((part) => (part.is === 'given' ? [part.permit] : []))),
    faults: unique(all.flatMap((part) => (part.is === 'declared' && !part.holds ? [part.fault] : [])))
  }
}

function what(failure: Failure): string {
  const { others, permits, faults } = sorted(failure)
  const clauses = [...faults]
  if (permits.length > 0) clauses.push(`the permit ${quoted(permits, 'or')} may not be given yet`)
  if (others.length > 0) {
    clauses.push(`${quoted(others)} may be on beside it, neither proven dead nor named in \`apart\``)
  }
  const act = failure.state.kind === 'measure' ? 'A reading is taken by hand' : 'A test is made by hand'
  return `${act} with power on, and not everything that allows it is there: ${clauses.join('; ')}.`
}

function mend(failure: Failure): string {
  const { others, permits, faults } = sorted(failure)
  const advice = lacking(failure, faults)
  if (permits.length > 0) {
    advice.push(
      `Let every way to this step pass the sign-off ${quoted(permits)}, after the last change of a lock or device.`
    )
  }
  if (others.length > 0) {
    const one = others.length === 1
    const reach = one ? 'it is out of reach' : 'they are out of reach'
    advice.push(
      `Lock, relieve and prove ${quoted(others)} first, or name ${one ? 'it' : 'them'} in \`apart=\` if ${reach}.`
    )
  }
  return advice.join(' ')
}

/** What to write at the step, as far as the text lacks it. */
function lacking({ machine, state }: Failure, faults: readonly string[]): string[] {
  if (state.kind !== 'live' && state.kind !== 'measure') return []
  const feeders = new Set(fedFrom(machine, state.near).flatMap((id) => feedersOf(machine, id)))
  const apart = state.apart.filter((id) => feeders.has(id))
  const advice: string[] = []
  if (state.why === null) advice.push('Say in `why=` why it cannot be done dead.')
  if (state.permits.length === 0)
    advice.push('Add a `::signoff[...]{#id role=...}` before it and name it in `permit=`.')
  if (apart.length > 0) {
    const feed = apart.length === 1 ? 'it feeds' : 'they feed'
    advice.push(`Take ${quoted(apart)} out of \`apart=\`: ${feed} what is under test.`)
  }
  // What is missing of these two only the compiler's own words tell.
  if (faults.some((fault) => fault.includes('role='))) {
    advice.push('Let a role declared `electrical: true` do it: `role=`.')
  }
  if (faults.some((fault) => fault.includes('gloves'))) {
    advice.push('Wear gloves whose class fits the voltage, and name them: `wear=`.')
  }
  return advice
}
