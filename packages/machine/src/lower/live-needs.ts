import { gloveClassFits, worstCaseVolts } from '@lockwright/energy'
import type { Source, SourceId, Step } from '@lockwright/language'
import type { Condition, Need } from '../condition.js'
import type { PermitId } from '../ids.js'
import type { Context } from './context.js'
import { electricalWork } from './feeding.js'
import { need, source } from './need.js'

type LiveStep = Extract<Step, { kind: 'live' | 'measure' }>

export function deadAndProven(id: SourceId): readonly Condition[] {
  return [
    { is: 'dead', source: id },
    { is: 'proven', source: id }
  ]
}

/** A test with power on: everything not under test dead or apart, a reason, a permit, and for electricity a qualified person in gloves. */
export function liveNeeds(step: LiveStep, written: readonly SourceId[], context: Context): readonly Need[] {
  const { head, feeding } = context
  const near = new Set(feeding.withFed(written))
  const surely = new Set(feeding.withSurelyFed(written))
  const says = (fault: string): Condition => ({ is: 'declared', holds: false, fault })
  const live = 'live-permitted'
  return [
    ...head.sources
      // What is fed on some generations only is asked to be dead on all: to test near it, it is named itself.
      .filter(({ id }) => !surely.has(id) && !step.apart.includes(id))
      .map(({ id }) => need(live, { is: 'all', of: deadAndProven(id) }, source(id))),
    ...step.apart
      .filter((id) => feeding.withFed([id]).some((fed) => near.has(fed)))
      .map((id) => need(live, says(`\`${id}\` is named apart but feeds what is under test`), source(id))),
    ...(step.why === undefined ? [need(live, says('no reason is given (`why=`)'))] : []),
    ...(step.permits.length === 0
      ? [need(live, says('no sign-off allows it (`permit=`)'))]
      : step.permits.map((permit) => need(live, { is: 'given', permit: permit as string as PermitId }))),
    ...head.sources
      .filter((candidate) => near.has(candidate.id) && electricalWork(candidate))
      .flatMap((candidate) =>
        liveFaults(step, candidate, context).map((fault) => need(live, says(fault), source(candidate.id)))
      )
  ]
}

function liveFaults(step: LiveStep, candidate: Source, { head, items }: Context): readonly string[] {
  const faults: string[] = []
  const role = head.roles.find(({ id }) => id === step.role)
  if (role?.electrical !== true) faults.push('no role declared `electrical: true` does it (`role=`)')
  const voltage = candidate.quantities.voltage
  const gloves = step.wear.flatMap((id) => items.get(id)?.glove ?? [])
  if (gloves.length === 0) {
    faults.push('nobody wears gloves with a class (`wear=`)')
  } else if (voltage !== undefined) {
    const volts = worstCaseVolts(voltage)
    const current = candidate.kind === 'electrical' ? (voltage.current ?? 'ac') : 'dc'
    for (const glove of gloves) {
      if (!gloveClassFits(glove, volts, current)) {
        faults.push(`gloves of class ${glove} do not fit ${Math.ceil(volts)} V ${current}`)
      }
    }
  }
  return faults
}
