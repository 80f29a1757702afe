import type { Block, Branch, Procedure, SectionId, Step, StepId } from '@lockwright/language'
import type { Machine } from '@lockwright/machine'

export interface Duration {
  readonly minutes: number
  /** Steps for which the procedure gives neither minutes nor a wait; they count as nothing. */
  readonly untimed: number
}

const nothing: Duration = { minutes: 0, untimed: 0 }
const secondsInMinute = 60

/**
 * How long a section usually takes: the minutes of its steps and every wait that they ask for. Of several branches the
 * longest counts; readings are taken to lie within limits, and steps to be done in time.
 */
export function sectionMinutes(procedure: Procedure, machine: Machine, section: SectionId): Duration {
  const waits = waitsByStep(machine)
  const bodyTakes = (blocks: readonly Block[]): Duration => blocks.map(blockTakes).reduce(added, nothing)
  const longest = (branches: readonly Branch[]): Duration =>
    branches
      .map(({ body }) => bodyTakes(body))
      .reduce((most, one) => (one.minutes > most.minutes ? one : most), nothing)
  const blockTakes = (block: Block): Duration => {
    switch (block.kind) {
      case 'heading':
      case 'closing':
      case 'gather':
      case 'back':
        return nothing
      case 'by':
        return longest(block.whens)
      case 'ask':
        return longest(block.answers)
      case 'only':
      case 'within':
        return bodyTakes(block.branch.body)
      case 'repeat':
        return bodyTakes(sectionBody(procedure, block.of))
      case 'remedies':
        return { minutes: 0, untimed: 1 }
      default:
        return stepTakes(block, waits)
    }
  }
  return bodyTakes(sectionBody(procedure, section))
}

/** From behind the heading to the next of the same or a higher level. */
export function sectionBody({ body }: Procedure, section: SectionId): readonly Block[] {
  const start = body.findIndex((block) => block.kind === 'heading' && block.id === section)
  const heading = body[start]
  if (heading?.kind !== 'heading') return []
  const rest = body.slice(start + 1)
  const end = rest.findIndex((block) => block.kind === 'heading' && block.level <= heading.level)
  return end === -1 ? rest : rest.slice(0, end)
}

function stepTakes(step: Step, waits: ReadonlyMap<StepId, number>): Duration {
  const wait = waits.get(step.id) ?? 0
  if (step.minutes !== undefined || wait > 0) return { minutes: (step.minutes ?? 0) + wait, untimed: 0 }
  return { minutes: 0, untimed: step.kind === 'stop' || step.kind === 'finish' ? 0 : 1 }
}

/** Minutes of the waits of each step, computed ones included. */
function waitsByStep(machine: Machine): ReadonlyMap<StepId, number> {
  return new Map(
    machine.states.map(({ step, inputs }) => [
      step,
      inputs.reduce((sum, input) => sum + (input.kind === 'wait' ? input.seconds : 0), 0) / secondsInMinute
    ])
  )
}

function added(one: Duration, other: Duration): Duration {
  return { minutes: one.minutes + other.minutes, untimed: one.untimed + other.untimed }
}
