import type { Machine } from '@lockwright/machine'
import { linesOf, sourceOf } from '../arrangement.js'
import type { Declared, Obligation } from '../obligation.js'

export const lampNoProof: Obligation = {
  id: 'lamp-no-proof',
  statement: 'a dark indicator is not a verification: what a lamp tells of is proven too',
  sources: ['common practice'],
  danger: 'A lamp is dark when it is broken as well, and hands go to what it was trusted for.',
  waivable: false,
  check: { kind: 'declared', find }
}

function find(machine: Machine): Declared {
  const lamps = machine.states.flatMap((state) =>
    state.kind === 'lamp' ? state.sources.map((id) => ({ span: state.span, id })) : []
  )
  return {
    arises: lamps.length > 0,
    findings: lamps
      .filter(({ id }) => linesOf(machine, 'prove', id).length === 0)
      .map(({ span, id }) => ({
        span,
        what: `The lamp of \`${id}\` is looked at, and no step proves \`${id}\` dead.`,
        mend: `Add a \`prove\` step that names \`${id}\` behind the last lock and before the work.`,
        related: [{ span: sourceOf(machine, id).span, note: `\`${id}\` is declared here.` }]
      }))
  }
}
