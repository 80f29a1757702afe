import type { LockId, PersonId } from '@lockwright/machine'
import { advance, askedInputs, type Event, type Machine, type Snapshot, start, stateOf } from '@lockwright/machine'

/** A small generator of repeatable chance (a linear congruential one; constants of Numerical Recipes, from memory). */
export function chance(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state / 2 ** 32
  }
}

const person = 'walker' as PersonId

/** Everything that a person could answer next at a snapshot, all of it lawful. */
export function answersAt(machine: Machine, snapshot: Snapshot, at: string): readonly Event[] {
  const stamp = { at, by: person }
  if (snapshot.status === 'new') return [{ ...stamp, kind: 'opened', mode: 'rehearsal' }]
  const state = stateOf(machine, snapshot.state)
  const inputs = askedInputs(machine, snapshot.ledger, state)
  const ticks = {
    acknowledged: state.notices.map(({ id }) => id),
    boxes: inputs.flatMap((input) => (input.kind === 'box' ? [input.id] : []))
  }
  for (const input of inputs) {
    switch (input.kind) {
      case 'box':
        break
      case 'lock':
        if (snapshot.locks.some(({ point }) => point === input.point)) break
        return [
          { ...stamp, kind: 'lock-hung', state: state.id, point: input.point, lock: `lock ${input.point}` as LockId }
        ]
      case 'unlock': {
        const hung = snapshot.locks.find(({ point }) => point === input.point)
        if (hung === undefined) break
        return [{ ...stamp, kind: 'lock-removed', state: state.id, point: input.point, owner: hung.person }]
      }
      case 'wait': {
        const wait = snapshot.progress.waits[input.id]
        if (wait === undefined) return [{ ...stamp, kind: 'wait-started', state: state.id, input: input.id }]
        if (wait.over) break
        const over = new Date(Date.parse(wait.startedAt) + input.seconds * 1000).toISOString()
        return [{ kind: 'wait-over', state: state.id, input: input.id, by: person, at: over > at ? over : at }]
      }
      case 'reading': {
        const taken = snapshot.progress.readings[input.id]
        const { min, max } = input.limits
        const inside = input.limits.below !== null ? 0 : (min ?? max ?? 0)
        const outside = max !== null ? max + 1 : min !== null ? min - 1 : null
        const read = (value: number): Event => ({
          ...stamp,
          kind: 'reading',
          state: state.id,
          input: input.id,
          value,
          typed: `${value} ${input.unit}`
        })
        if (taken?.inside === true) break
        if (taken === undefined && state.kind === 'measure' && outside !== null) return [read(inside), read(outside)]
        if (taken !== undefined && state.exits.some(({ on }) => on === 'outside')) {
          return [read(inside), { ...stamp, ...ticks, kind: 'choice', state: state.id, answer: 'outside' }]
        }
        return [read(inside)]
      }
    }
  }
  switch (state.kind) {
    case 'stop':
      return [{ ...stamp, kind: 'stopped', reason: state.reason }]
    case 'finish':
      return [{ ...stamp, ...ticks, kind: 'finished', state: state.id }]
    case 'signoff':
      return [{ ...stamp, ...ticks, kind: 'signed', state: state.id, role: state.role, meaning: state.meaning }]
    default:
      return state.exits.flatMap((exit): Event[] => {
        switch (exit.on) {
          case 'done':
          case 'inside':
            return [{ ...stamp, ...ticks, kind: 'done', state: state.id }]
          case 'answer':
            return [{ ...stamp, ...ticks, kind: 'choice', state: state.id, answer: exit.answer }]
          case 'identified':
            return [{ ...stamp, ...ticks, kind: 'choice', state: state.id, answer: exit.value }]
          case 'late': {
            const deadline = snapshot.deadlines[exit.within]
            if (deadline === undefined) return []
            const late = new Date(Date.parse(deadline) + 1000).toISOString()
            return [{ kind: 'late', state: state.id, by: person, at: late > at ? late : at }]
          }
          case 'again':
          case 'outside':
          case 'value':
            return []
        }
      })
  }
}

export interface Walk {
  readonly snapshot: Snapshot
  readonly events: readonly Event[]
}

/** Answers at random until the run closes. A refusal of a lawful answer is a fault, and thrown with its reasons. */
export function walk(machine: Machine, random: () => number): Walk {
  let snapshot = start(machine)
  const events: Event[] = []
  let at = '2026-01-05T06:00:00.000Z'
  for (let count = 0; count < 5_000; count += 1) {
    if (snapshot.status === 'stopped' || snapshot.status === 'finished') return { snapshot, events }
    const answers = answersAt(machine, snapshot, at)
    const event = answers[Math.floor(random() * answers.length)]
    if (event === undefined) throw new Error(`nothing can be answered at ${snapshot.state}`)
    const next = advance(machine, snapshot, event)
    if (!next.ok) throw new Error(`${snapshot.state}: ${event.kind}: ${JSON.stringify(next.refusals)}`)
    snapshot = next.snapshot
    events.push(event)
    at = new Date(Date.parse(snapshot.at) + 1000).toISOString()
  }
  throw new Error('the walk does not end')
}
