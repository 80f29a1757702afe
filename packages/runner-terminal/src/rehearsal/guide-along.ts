import { type Machine, type StateId, stateOf } from '@lockwright/machine'
import type { Way, WayStep } from '@lockwright/proof'
import type { RunPort } from '../run-port.js'
import { leavesStep } from '../session/leaves-step.js'
import { optionsOf } from '../step/options.js'

/** A way to be rehearsed, with its number and how many there are. */
export interface NumberedWay {
  readonly way: Way
  readonly number: number
  readonly of: number
  /** `cabinet series-t`; empty where nothing differs. */
  readonly generation: string
}

/** What the way does where the run stands; or where the run left it. Not visible yet. */
export function guideAlong(run: RunPort, { way, number, of, generation }: NumberedWay): readonly string[] {
  const name = `Path ${number} of ${of}`
  const steps = restingSteps(run.machine, way)
  const left = leftStates(run)
  const off = left.findIndex(({ state, took }, index) => {
    const step = steps[index]
    const next = left[index + 1]?.state ?? run.snapshot.state
    const elsewhere = steps[index + 1] !== undefined && steps[index + 1]?.state !== next
    return step?.state !== state || elsewhere || (took !== null && step.takes !== took)
  })
  if (off !== -1) {
    const step = steps[off]
    return step === undefined
      ? [`${name} ended before.`]
      : [`${name} was left at line ${step.line}, ${step.title}: it went on by ${step.takes ?? 'doing the step'}.`]
  }
  const kind = left.length === 0 && generation !== '' ? `${name} (${generation})` : name
  const takes = steps[left.length]?.takes ?? null
  return [`${kind}, step ${left.length + 1} of ${steps.length}${takes === null ? '' : `: ${takes}`}`]
}

/** The steps at which a run rests: what is known is passed by, and what is measured again is one step. */
function restingSteps(machine: Machine, { steps }: Way): readonly WayStep[] {
  const resting: WayStep[] = []
  for (const step of steps) {
    const { kind } = stateOf(machine, step.state)
    if (kind === 'branch' || kind === 'timer' || kind === 'back') continue
    const takes = step.takes === null ? null : named(machine, step.takes)
    const last = resting.at(-1)
    if (last?.state === step.state)
      resting[resting.length - 1] = { ...last, takes: `${last.takes ?? ''}, then ${takes ?? ''}` }
    else resting.push({ ...step, takes })
  }
  return resting
}

/** The steps that were left, each with what was chosen there; null where nothing was to be chosen. */
function leftStates({
  machine,
  entries,
  snapshot
}: RunPort): readonly { readonly state: StateId; readonly took: string | null }[] {
  return entries.flatMap(({ event, state }, index) => {
    const next = entries[index + 1]?.state ?? snapshot.state
    if (event.kind === 'opened' || !(leavesStep(event) || next !== state)) return []
    const options = event.kind === 'choice' ? optionsOf(machine, stateOf(machine, state)) : []
    const chosen = options.find(({ answer }) => event.kind === 'choice' && answer === event.answer)
    return [{ state, took: chosen?.label ?? null }]
  })
}

/** A generation by the name that its answer has on the screen. */
function named({ axes }: Machine, takes: string): string {
  return axes.flatMap(({ values }) => values).find(({ id }) => id === takes)?.name ?? takes
}
