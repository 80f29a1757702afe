import { linesOf, restraintsHolding, sourceOf } from '../arrangement.js'
import type { Failure, Obligation } from '../obligation.js'
import { faultySources, joined, mayStill, naming, pointsNeeded, quoted } from '../vocabulary.js'

export const voidProof: Obligation = {
  id: 'void-proof',
  statement: 'a verification is made only once no energy can be there: any other counts for nothing and misleads',
  sources: ['29 CFR 1910.147(d)(6)'],
  danger: 'A test on what may be live endangers whoever makes it, and a lucky zero is trusted later.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

function what(failure: Failure): string {
  const { machine } = failure
  const clauses = faultySources(failure).map((id) => {
    const source = sourceOf(machine, id)
    const points = pointsNeeded(machine, [id])
    const fed = points.length === 0 ? [] : [`be fed through ${quoted(points, 'or')}`]
    const held = source.store === 'none' ? [] : [mayStill(source.kind)]
    return `\`${id}\` is verified while it may still ${joined([...fed, ...held], 'or')}`
  })
  return `${clauses.join('; ')}: the reading proves nothing.`
}

function mend(failure: Failure): string {
  const { machine } = failure
  return faultySources(failure)
    .map((id) => {
      const never = pointsNeeded(machine, [id]).filter((point) => linesOf(machine, 'lock', point).length === 0)
      const steps = never.length > 0 ? [`\`::lock{at=${naming(never)}}\``] : []
      const source = sourceOf(machine, id)
      const holders = restraintsHolding(machine, id)
      if (source.store === 'can-be-let-out' && linesOf(machine, 'relieve', id).length === 0) {
        steps.push(
          `\`::relieve{of=${id}}\`${holders[0] === undefined ? '' : ` or \`::restrain{with=${holders[0].id}}\``}`
        )
      }
      return steps.length === 0
        ? `Verify \`${id}\` only after everything that feeds it is locked and what it holds is relieved or restrained.`
        : `Add ${joined(steps)} before the verification of \`${id}\`.`
    })
    .join(' ')
}
