import type { Failure, Obligation } from '../obligation.js'
import { before, faultyPoints, isOrAre, naming, quoted } from '../vocabulary.js'

export const deviceState: Obligation = {
  id: 'device-state',
  statement: 'a lock comes off only where one is on, a device is switched on only from its off position',
  sources: ['common practice'],
  danger:
    'A step that does not fit the device shows that the plan and the machine have parted: from there on nothing is known.',
  waivable: false,
  check: { kind: 'needs', what, mend }
}

function what(failure: Failure): string {
  const points = faultyPoints(failure)
  const named = `${quoted(points)} ${isOrAre(points)}`
  switch (failure.state.kind) {
    case 'unlock':
      return `${named} unlocked where no lock may be on.`
    case 'isolate':
      return `${named} switched off while a lock may be on.`
    default:
      return `${named} switched on while it may be locked, or on already.`
  }
}

function mend(failure: Failure): string {
  const names = naming(faultyPoints(failure))
  switch (failure.state.kind) {
    case 'unlock':
      return `Take this step out, or let every way to it pass \`::lock{at=${names}}\`.`
    case 'isolate':
      return `Move this step before the lock; a locked device is in its off position already.`
    default:
      return `Add \`::unlock{at=${names}}\` ${before(failure.state)}, or take this step out where the device is on already.`
  }
}
