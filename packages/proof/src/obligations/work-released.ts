import { linesOf, restraintsHolding, sourceOf } from '../arrangement.js'
import type { Failure, Obligation } from '../obligation.js'
import { atLines, before, faultySources, joined, mayStill, naming, quoted, whyHeld } from '../vocabulary.js'

export const workReleased: Obligation = {
  id: 'work-released',
  statement: 'hands-on work touches only sources whose stored energy is relieved or restrained',
  sources: ['29 CFR 1910.147(d)(5)(i)'],
  danger: 'Stored energy stays behind when the supply is locked, and lets go when it is touched.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

function what(failure: Failure): string {
  const held = faultySources(failure).map((id) => {
    const { kind } = sourceOf(failure.machine, id)
    return `\`${id}\` may still ${mayStill(kind)}: ${whyHeld(failure.machine, id)}`
  })
  return `Hands go to work while ${held.join('; and ')}.`
}

function mend(failure: Failure): string {
  return faultySources(failure)
    .map((id) => advice(failure, id))
    .join(' ')
}

function advice({ machine, state }: Failure, id: ReturnType<typeof faultySources>[number]): string {
  const { store } = sourceOf(machine, id)
  const holders = restraintsHolding(machine, id).map((restraint) => restraint.id)
  const done = [
    ...linesOf(machine, 'relieve', id),
    ...holders.flatMap((holder) => linesOf(machine, 'restrain', holder))
  ]
  if (done.length > 0) {
    return (
      `Let every way to this step relieve or restrain \`${id}\` after its last lock; what is done at ${atLines(done)} ` +
      'is passed by, or undone again, on the way shown.'
    )
  }
  const ways: string[] = []
  if (store === 'can-be-let-out') ways.push(`\`::relieve{of=${id}}\``)
  if (holders.length > 0) ways.push(`\`::restrain{with=${naming(holders.slice(0, 1))}}\``)
  if (ways.length > 0) return `Add ${joined(ways, 'or')} after the last lock and ${before(state)}.`
  return `Declare under \`restraints:\` what holds ${quoted([id])} back, and put it on with \`::restrain\` ${before(state)}.`
}
