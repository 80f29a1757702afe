import { pointsFeeding } from '../arrangement.js'
import type { Failure, Obligation } from '../obligation.js'
import { before, faultyPoints, isOrAre, moved, naming, quoted } from '../vocabulary.js'

export const restraintsOff: Obligation = {
  id: 'restraints-off',
  statement: 'earths, blocks and jumpers are off before energy comes back',
  sources: ['29 CFR 1910.333(b)(2)(v)(A)', '29 CFR 1910.147 Appendix A'],
  danger: 'Power on an earthed circuit is a short circuit; a drive that starts against a pin breaks it and throws it.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

/** The restraints that have to be off before these points move. */
function restraintsBehind(failure: Failure) {
  const { machine, ledger } = failure
  const points = faultyPoints(failure)
  const fed = machine.sources.filter((source) =>
    pointsFeeding(machine, source.id).some((point) => points.includes(point))
  )
  const ids = fed.map((source) => source.id)
  const behind = machine.restraints.filter(
    (restraint) => restraint.needsPower === null && restraint.holds.some((held) => ids.includes(held))
  )
  const on = behind.filter((restraint) => ledger.restraints[restraint.id] === 'on')
  return on.length > 0 ? on : behind
}

function what(failure: Failure): string {
  const points = faultyPoints(failure)
  const restraints = restraintsBehind(failure).map((restraint) => restraint.id)
  const fed = points.length === 1 ? 'what it feeds' : 'what they feed'
  return `${moved(points, failure.state.kind)} while ${quoted(restraints)} ${isOrAre(restraints)} still on ${fed}.`
}

function mend(failure: Failure): string {
  const { state } = failure
  const restraints = restraintsBehind(failure)
  const named = restraints.map((restraint) => restraint.id)
  const loads = failure.machine.sources.filter((source) => source.kind === 'gravity').map((source) => source.id)
  const lifted = restraints.some(({ holds }) => holds.some((held) => loads.includes(held)))
  const power = lifted ? ' If it comes out only once power has lifted the load, declare that: `needs-power: why`.' : ''
  return `Add \`::remove{restraint=${naming(named)}}\` ${before(state)}.${power}`
}
