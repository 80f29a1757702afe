import type { Machine, MachineSource } from '@lockwright/machine'
import { linesOf, pointsFeeding, restraintsHolding } from '../arrangement.js'
import type { Declared, Finding, Obligation } from '../obligation.js'
import { naming, quoted } from '../vocabulary.js'

export const sourceCovered: Obligation = {
  id: 'source-covered',
  statement: 'every declared source is locked, restrained, relieved or left on with a reason',
  sources: ['29 CFR 1910.147(c)(4)(ii)'],
  danger: 'A source that the steps never mention is met by hand.',
  waivable: false,
  check: { kind: 'declared', find }
}

function find(machine: Machine): Declared {
  return {
    arises: machine.sources.length > 0,
    findings: machine.sources.filter((source) => !covered(machine, source)).map((source) => finding(machine, source))
  }
}

/** Points that feed the source and that no lock step names. */
function neverLocked(machine: Machine, source: MachineSource): readonly string[] {
  return pointsFeeding(machine, source.id).filter((point) => linesOf(machine, 'lock', point).length === 0)
}

function covered(machine: Machine, source: MachineSource): boolean {
  const fed = source.at.length > 0 || source.fedBy.length > 0
  return (
    (fed && neverLocked(machine, source).length === 0) ||
    restraintsHolding(machine, source.id).some(({ id }) => linesOf(machine, 'restrain', id).length > 0) ||
    (!fed && linesOf(machine, 'relieve', source.id).length > 0) ||
    machine.leftOn.some((left) => left.source === source.id) ||
    linesOf(machine, 'work', source.id).length > 0
  )
}

function finding(machine: Machine, source: MachineSource): Finding {
  const open = neverLocked(machine, source)
  const why =
    open.length > 0
      ? `no step locks ${quoted(open, 'or')}, and none puts on a restraint that holds it`
      : 'nothing feeds it, and no step relieves it or puts on a restraint that holds it'
  return {
    span: source.span,
    what: `\`${source.id}\` is declared, and the procedure does nothing about it: ${why}.`,
    mend: `${advice(machine, source, open)} What has to stay on is named under \`left-on:\` with a reason and a permit.`,
    related: []
  }
}

function advice(machine: Machine, source: MachineSource, open: readonly string[]): string {
  if (open.length > 0) return `Add \`::lock{at=${naming(open)}}\` before the work.`
  const holder = restraintsHolding(machine, source.id)[0]
  if (source.store === 'can-be-let-out') return `Add \`::relieve{of=${source.id}}\` before the work.`
  return holder === undefined
    ? 'Declare under `restraints:` what covers or holds it, and add the `::restrain` before the work.'
    : `Add \`::restrain{with=${holder.id}}\` before the work.`
}
