import type { Machine } from '@lockwright/machine'
import { type ElectricalStep, electricalSteps } from '../electrical-steps.js'
import type { Declared, Finding, Obligation } from '../obligation.js'
import { quoted } from '../vocabulary.js'

export const proofQualified: Obligation = {
  id: 'proof-qualified',
  statement: 'until it is proven dead it is treated as live: a qualified person does what is done at it',
  sources: ['29 CFR 1910.333(b)(2)(iv)'],
  danger: 'Whoever tests, earths or discharges a conductor first stands before it as before a live one.',
  waivable: false,
  check: { kind: 'declared', find }
}

function find(machine: Machine): Declared {
  const steps = electricalSteps(machine)
  const qualified = machine.roles.filter(({ electrical }) => electrical).map(({ id }) => id)
  return {
    arises: steps.length > 0,
    findings: steps
      .filter(({ state: { role } }) => role === null || !qualified.includes(role))
      .map((step) => finding(machine, step, qualified))
  }
}

function finding(machine: Machine, { state, sources }: ElectricalStep, qualified: readonly string[]): Finding {
  const names = quoted(sources.map(({ id }) => id))
  const role = machine.roles.find(({ id }) => id === state.role)
  return {
    span: state.span,
    what:
      role === undefined
        ? `The step does not say who does it, and ${names} counts as live until it is proven dead.`
        : `\`${role.id}\` does this at ${names}, and is not declared \`electrical: true\`.`,
    mend:
      qualified.length === 0
        ? 'Declare the qualified role under `roles:` with `electrical: true`, and name it here: `role=`.'
        : `Name who is qualified: \`role=${qualified[0]}\`.`,
    related: role === undefined ? [] : [{ span: role.span, note: `\`${role.id}\` is declared here.` }]
  }
}
