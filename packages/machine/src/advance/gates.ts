import type { About, Condition } from '../condition.js'
import { pack } from '../ledger.js'
import type { Machine } from '../machine.js'
import { modelOf } from '../model.js'
import { emptyDerived } from '../settle.js'
import type { Ledger, Refusal } from '../snapshot.js'
import type { State } from '../state.js'
import { doStep } from '../step.js'
import { listed } from './refusal.js'

/** The needs of a state that are not met now, one refusal each: what the proof relied on is held at run time too. */
export function closedGates(machine: Machine, ledger: Ledger, state: State): readonly Refusal[] {
  const model = modelOf(machine)
  const refusals: Refusal[] = []
  // What is asked of an identification does not depend on its answer, so any value serves.
  doStep(model, pack(model, ledger), state, 0, emptyDerived(model), ({ need, rung }) => {
    refusals.push({
      kind: 'gate',
      obligation: rung.obligation,
      why: tellUnmet(need.about, rung.condition),
      mend: 'Do what is missing first, or stop the work here and make the machine safe by the rules of the plant.'
    })
  })
  return refusals
}

/** What is not so, in plain words. */
export function tellUnmet(about: About, condition: Condition): string {
  switch (condition.is) {
    case 'stopped':
      return 'The machine is not shut down.'
    case 'told':
      return 'The people affected have not been told.'
    case 'tried':
      return 'The start control has not been tried since the last lock went on.'
    case 'inspected':
      return 'The machine has not been inspected and closed up since it was last worked on.'
    case 'clear':
      return 'It has not been made sure since the last hands-on step that everybody is clear.'
    case 'isolated':
      return `${condition.source} may still be fed: not every device that feeds it is locked and dead.`
    case 'cut':
      return `${condition.source} may still be fed: not every device that feeds it is off.`
    case 'still':
      return `${condition.source} may still hold energy.`
    case 'dead':
      return `The energy of ${condition.source} can come back by itself and is not restrained.`
    case 'proven':
      return `${condition.source} has not been proven dead, or something since could have brought its energy back.`
    case 'locked':
      return `${condition.point} is not locked.`
    case 'off':
      return `${condition.point} is not in its safe position without a lock.`
    case 'not-locked':
      return `${condition.point} is locked already.`
    case 'some-point-locked':
      return 'No device is locked.'
    case 'feeds-locked':
      return `Not every device that feeds what ${condition.restraint} holds is locked.`
    case 'unrestrained':
      return `A restraint is still on that holds what ${condition.point} feeds.`
    case 'known':
      return `The ${condition.axis} has not been identified.`
    case 'given':
      return `The sign-off ${condition.permit} has not been given, or a lock has gone on or off since.`
    case 'normal':
      return `${condition.point} is not back in its position of service.`
    case 'restraint-off':
      return `${condition.restraint} is still on.`
    case 'touched-still':
      return 'What was worked on may hold energy.'
    case 'declared':
      return `The procedure does not allow it: ${condition.fault}.`
    case 'all':
    case 'any':
      return `${about.kind === 'machine' || about.kind === 'axis' ? 'The machine' : about.id}: ${listed(
        condition.of.map((part) => tellUnmet(about, part).replace(/\.$/, ''))
      )}.`
  }
}
