import type { Machine, MachineLeftOn, PermitId, State } from '@lockwright/machine'
import { sourceOf } from '../arrangement.js'
import type { Declared, Failure, Finding, Obligation } from '../obligation.js'
import { faultySources, isOrAre, parts, quoted, unique } from '../vocabulary.js'

export const leftOn: Obligation = {
  id: 'left-on',
  statement: 'what stays on during work stays on for a signed reason, and is never bare electricity',
  sources: ['29 CFR 1910.147(c)(4)(ii)', '29 CFR 1910.333(a)(1)'],
  danger: 'A source that is left on is met by people who think that the machine is dead.',
  waivable: false,
  check: { kind: 'needs-and-declared', what, mend, find }
}

function permitsOf(failure: Failure): readonly PermitId[] {
  const conditions = failure.faults.flatMap(({ condition }) => parts(condition))
  return unique(conditions.flatMap((part) => (part.is === 'given' ? [part.permit] : [])))
}

function what(failure: Failure): string {
  const sources = faultySources(failure)
  return `Hands go to work while ${quoted(sources)} ${isOrAre(sources)} left on, and the permit ${quoted(permitsOf(failure), 'or')} may not be given yet.`
}

function mend(failure: Failure): string {
  return `Let every way to this step pass the sign-off ${quoted(permitsOf(failure), 'or')} after the last lock; a permit ends when a lock goes on or off.`
}

/** One source that is left on, by the front matter or by a step. */
type Left = Pick<MachineLeftOn, 'source' | 'span' | 'permits'> & { readonly why: string | null }

function find(machine: Machine): Declared {
  const left: readonly Left[] = [...machine.leftOn, ...machine.states.flatMap(leftBy)]
  return { arises: left.length > 0, findings: left.flatMap((one) => faultsOf(machine, one)) }
}

function leftBy(state: State): readonly Left[] {
  if (state.kind !== 'work') return []
  return state.leaves.map((source) => ({ source, span: state.span, why: state.why, permits: state.permits }))
}

function faultsOf(machine: Machine, { source, span, why, permits }: Left): readonly Finding[] {
  const { electricalWork, guarded } = sourceOf(machine, source)
  const finding = (say: string, mending: string): Finding => ({ span, what: say, mend: mending, related: [] })
  const findings: Finding[] = []
  if (why === null || why.trim() === '') {
    findings.push(
      finding(`\`${source}\` is left on during work and no reason is given.`, 'Give the reason: `why="..."`.')
    )
  }
  if (permits.length === 0) {
    findings.push(
      finding(
        `\`${source}\` is left on during work without a permit.`,
        'Add a `::signoff[...]{#id role=...}` before the work and name it here: `permit=id`.'
      )
    )
  }
  if (electricalWork && guarded === null) {
    findings.push(
      finding(
        `\`${source}\` is electricity above 50 V and is left on bare during work.`,
        `Lock and prove it, or declare in the front matter which fixed barrier covers it: \`guarded: ...\` at \`${source}\`.`
      )
    )
  }
  if (
    electricalWork &&
    guarded !== null &&
    permits.length > 0 &&
    !permits.some((permit) => signedByElectrical(machine, permit))
  ) {
    findings.push(
      finding(
        `\`${source}\` is electricity above 50 V, and the permit ${quoted(permits)} to leave it on is signed by nobody of an electrical role.`,
        'Let the sign-off name a `role=` that is declared `electrical: true`.'
      )
    )
  }
  return findings
}

function signedByElectrical(machine: Machine, permit: PermitId): boolean {
  return machine.states.some(
    (state) =>
      state.kind === 'signoff' &&
      state.permit === permit &&
      machine.roles.some((role) => role.id === state.role && role.electrical)
  )
}
