import { advance, type Event, type Ledger, type Machine, type Snapshot, start, stateOf } from '@lockwright/machine'
import { xstateOf } from '@lockwright/machine/exports'
import { chance, walk } from '../end-to-end/walk.js'

/** A walk that `advance` took, as a chart sees it: where it stands at first, and each event with the state behind it. */
export interface ChartWalk {
  readonly first: string
  readonly steps: readonly { readonly event: string; readonly state: string }[]
}

/** Walks to an end, one a seed, translated to the names that the exports give to states and events. */
export function chartWalks(machine: Machine, seeds: readonly number[]): readonly ChartWalk[] {
  const name = namesOf(machine)
  return seeds.map((seed) => {
    const { events } = walk(machine, chance(seed))
    let snapshot = start(machine)
    let first = ''
    const steps: ChartWalk['steps'][number][] = []
    for (const event of events) {
      const before = snapshot
      const next = advance(machine, before, event)
      if (!next.ok) throw new Error(JSON.stringify(next.refusals))
      snapshot = next.snapshot
      if (event.kind === 'opened') {
        first = name(snapshot)
        continue
      }
      const told = eventNameOf(machine, before, event)
      if (told !== null) steps.push({ event: told, state: name(snapshot) })
    }
    return { first, steps }
  })
}

/** By the state and what is known of the generation; a run that is closed stands at its end. */
function namesOf(machine: Machine): (snapshot: Snapshot) => string {
  const spelled = (state: string, known: object): string => JSON.stringify([state, Object.entries(known).sort()])
  const names = new Map(
    Object.entries(xstateOf(machine).states).flatMap(([name, { meta }]) =>
      meta === undefined ? [] : [[spelled(meta.state, meta.known), name] as const]
    )
  )
  return ({ status, state, ledger }) => {
    if (status === 'finished' || status === 'stopped') return status
    const name = names.get(spelled(state, knownIn(ledger)))
    if (name === undefined) throw new Error(`the chart has no ${state} with ${JSON.stringify(knownIn(ledger))}`)
    return name
  }
}

function knownIn({ axes }: Ledger): object {
  return Object.fromEntries(Object.entries(axes).filter(([, value]) => value !== 'unknown'))
}

/** The exit that the event takes, by name; null for what moves nothing: locks, waits, readings within limits. */
function eventNameOf(machine: Machine, before: Snapshot, event: Event): string | null {
  const state = stateOf(machine, before.state)
  const late = state.exits
    .flatMap((exit) => (exit.on === 'late' ? [exit.within] : []))
    .find((timer) => {
      const deadline = before.deadlines[timer]
      return deadline !== undefined && Date.parse(event.at) > Date.parse(deadline)
    })
  const lateEvent = (timer: string): string => `late.${timer.replace(/[^A-Za-z0-9_-]/g, '_')}`
  switch (event.kind) {
    case 'finished':
      return 'run.finished'
    case 'stopped':
      return 'run.stopped'
    case 'late':
      if (late === undefined) throw new Error('late, but in time')
      return lateEvent(late)
    case 'reading': {
      const limits = state.inputs.find((input) => input.kind === 'reading' && input.id === event.input)
      if (state.kind !== 'measure' || limits?.kind !== 'reading') return null
      const { min, max } = limits.limits
      return (min !== null && event.value < min) || (max !== null && event.value > max) ? 'reading.again' : null
    }
    case 'done':
    case 'signed':
      if (late !== undefined) return lateEvent(late)
      return state.kind === 'measure' ? 'reading.inside' : 'step.done'
    case 'choice':
      if (late !== undefined) return lateEvent(late)
      if (state.kind === 'identify') return `hardware.${state.axis}.${event.answer}`
      return state.kind === 'measure' ? `reading.${event.answer}` : `answer.${event.answer}`
    default:
      return null
  }
}
