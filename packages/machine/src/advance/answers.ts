import { askedInputs, withinLimits } from '../asked.js'
import type { Event, Ticks } from '../event.js'
import type { Machine } from '../machine.js'
import type { Advanced, Refusal, Snapshot } from '../snapshot.js'
import type { Input, State } from '../state.js'
import { breakOff } from './breaks.js'
import { hang, locksLeft, takeOff } from './crew.js'
import { lateExit, leave, leaveUndone, withEffects } from './move.js'
import { listed, refuse, refuseAll } from './refusal.js'

type Answer<Kind extends Event['kind']> = Extract<Event, { kind: Kind }>

/** What the state still asks before it can be left by `done`. */
export function stillAsked(machine: Machine, snapshot: Snapshot, state: State, ticks: Ticks): readonly Refusal[] {
  const inputs = askedInputs(machine, snapshot.ledger, state)
  const missing = (why: string, mend: string): Refusal => ({ kind: 'incomplete', obligation: null, why, mend })
  const refusals: Refusal[] = []
  const unread = state.notices.filter(({ id }) => !ticks.acknowledged.includes(id))
  if (unread.length > 0) {
    refusals.push(
      missing(`Not acknowledged: ${listed(unread.map(({ word }) => word))}.`, 'Read the notice and confirm it.')
    )
  }
  const open = inputs.filter((input) => input.kind === 'box' && !ticks.boxes.includes(input.id))
  if (open.length > 0) {
    refusals.push(missing(`${open.length} of the boxes of this step are not ticked.`, 'Do each item, then tick it.'))
  }
  const foreign = [
    ...ticks.acknowledged.filter((id) => !state.notices.some((notice) => notice.id === id)),
    ...ticks.boxes.filter((id) => !inputs.some((input) => input.kind === 'box' && input.id === id))
  ]
  if (foreign.length > 0) {
    refusals.push({
      kind: 'not-asked',
      obligation: null,
      why: `This step does not ask for ${listed(foreign)}.`,
      mend: 'Answer what the step asks.'
    })
  }
  for (const input of inputs) {
    const refusal = openInput(input, snapshot)
    if (refusal !== null) refusals.push(refusal)
  }
  const left = locksLeft(machine, snapshot, state)
  if (left.length > 0) {
    refusals.push({
      kind: 'crew',
      obligation: null,
      why: `Still on: ${listed(left.map(({ person, point, lock }) => `lock ${lock} of ${person} on ${point}`))}.`,
      mend:
        state.kind === 'unlock'
          ? 'Each lock comes off by whoever hung it.'
          : 'Each lock comes off by whoever hung it, who then leaves the crew.'
    })
  }
  return refusals
}

function openInput(input: Input, { progress, locks }: Snapshot): Refusal | null {
  switch (input.kind) {
    case 'box':
    case 'unlock':
      return null
    case 'lock':
      return locks.some(({ point }) => point === input.point)
        ? null
        : {
            kind: 'incomplete',
            obligation: null,
            why: `No lock hangs on ${input.point}.`,
            mend: 'Hang it and enter its number.'
          }
    case 'reading': {
      const reading = progress.readings[input.id]
      if (reading === undefined) {
        return {
          kind: 'incomplete',
          obligation: null,
          why: `The reading ${input.label} is missing.`,
          mend: 'Take it and enter it.'
        }
      }
      return reading.inside
        ? null
        : {
            kind: 'out-of-limits',
            obligation: null,
            why: `The reading ${input.label} is ${reading.typed}, which is out of limits.`,
            mend: 'Treat it as live. Find out why, then take it again; or take the way out that the step gives, or stop.'
          }
    }
    case 'wait':
      return progress.waits[input.id]?.over === true
        ? null
        : {
            kind: 'too-early',
            obligation: null,
            why: 'The wait is not over.',
            mend: 'Wait it out; it cannot be skipped.'
          }
  }
}

export function done(machine: Machine, snapshot: Snapshot, state: State, event: Answer<'done'>): Advanced {
  const exit = state.exits.find(({ on }) => on === 'done' || on === 'inside')
  // A sign-off is left by a signature alone.
  if (exit === undefined || state.kind === 'signoff') return notAsked(state, 'to be ticked off')
  return (
    refuseAll(stillAsked(machine, snapshot, state, event)) ?? {
      ok: true,
      snapshot: leave(machine, snapshot, state, exit, event.at)
    }
  )
}

export function reading(machine: Machine, snapshot: Snapshot, state: State, event: Answer<'reading'>): Advanced {
  const input = askedInputs(machine, snapshot.ledger, state).find(({ id }) => id === event.input)
  if (input?.kind !== 'reading') return notAsked(state, `for a reading named ${event.input}`)
  if (!Number.isFinite(event.value))
    return refuse('incomplete', 'The reading is not a number.', 'Enter a number with its unit.')
  const inside = withinLimits(input.limits, event.value)
  const taken: Snapshot = {
    ...snapshot,
    progress: {
      ...snapshot.progress,
      readings: { ...snapshot.progress.readings, [input.id]: { value: event.value, typed: event.typed, inside } }
    }
  }
  // Hands were at the machine, whatever the reading was.
  const again = state.kind === 'measure' && !inside
  return { ok: true, snapshot: again ? withEffects(machine, taken, state) : taken }
}

export function choice(machine: Machine, snapshot: Snapshot, state: State, event: Answer<'choice'>): Advanced {
  const exit = state.exits.find(
    (candidate) =>
      (candidate.on === 'answer' && candidate.answer === event.answer) ||
      (candidate.on === 'identified' && candidate.value === event.answer) ||
      (candidate.on === 'outside' && event.answer === 'outside')
  )
  if (exit === undefined) return notAsked(state, `for the answer ${event.answer}`)
  const asked = stillAsked(machine, snapshot, state, event)
  if (exit.on !== 'outside') {
    return refuseAll(asked) ?? { ok: true, snapshot: leave(machine, snapshot, state, exit, event.at) }
  }
  const outside = Object.values(snapshot.progress.readings).some(({ inside }) => !inside)
  if (!outside) {
    return refuse(
      'incomplete',
      'No reading lies out of limits.',
      'Take the reading first; this way is for one that stays out of limits.'
    )
  }
  return (
    refuseAll(asked.filter(({ kind }) => kind !== 'out-of-limits')) ?? {
      ok: true,
      snapshot: leave(machine, snapshot, state, exit, event.at)
    }
  )
}

export function waitStarted(
  machine: Machine,
  snapshot: Snapshot,
  state: State,
  event: Answer<'wait-started'>
): Advanced {
  const input = askedInputs(machine, snapshot.ledger, state).find(({ id }) => id === event.input)
  if (input?.kind !== 'wait') return notAsked(state, `for a wait named ${event.input}`)
  if (snapshot.progress.waits[input.id] !== undefined) {
    return refuse('not-asked', 'The wait has started already.', 'Wait it out from its first start.')
  }
  return withWait(snapshot, input.id, event.at, false)
}

export function waitOver(machine: Machine, snapshot: Snapshot, state: State, event: Answer<'wait-over'>): Advanced {
  const input = askedInputs(machine, snapshot.ledger, state).find(({ id }) => id === event.input)
  const started = snapshot.progress.waits[event.input]
  if (input?.kind !== 'wait' || started === undefined)
    return notAsked(state, `for the end of a wait named ${event.input}`)
  const left = input.seconds - (Date.parse(event.at) - Date.parse(started.startedAt)) / 1000
  if (left > 0) {
    return refuse('too-early', `The wait has ${Math.ceil(left)} s to go.`, 'Wait it out; it cannot be skipped.')
  }
  return withWait(snapshot, input.id, started.startedAt, true)
}

function withWait(snapshot: Snapshot, id: string, startedAt: string, over: boolean): Advanced {
  const { progress } = snapshot
  return {
    ok: true,
    snapshot: { ...snapshot, progress: { ...progress, waits: { ...progress.waits, [id]: { startedAt, over } } } }
  }
}

export function lockHung(machine: Machine, snapshot: Snapshot, state: State, event: Answer<'lock-hung'>): Advanced {
  const asked = askedInputs(machine, snapshot.ledger, state).some(
    (input) => input.kind === 'lock' && input.point === event.point
  )
  if (!asked) return notAsked(state, `for a lock on ${event.point}`)
  return hang(snapshot, event.by, [{ point: event.point, lock: event.lock }])
}

export function lockRemoved(snapshot: Snapshot, state: State, event: Answer<'lock-removed'>): Advanced {
  return takeOff(snapshot, state, event)
}

export function signed(machine: Machine, snapshot: Snapshot, state: State, event: Answer<'signed'>): Advanced {
  const exit = state.exits.find(({ on }) => on === 'done')
  if (state.kind !== 'signoff' || exit === undefined) return notAsked(state, 'for a signature')
  if (event.role !== state.role || event.meaning !== state.meaning) {
    return refuse(
      'not-asked',
      `The step asks ${state.role} to sign for «${state.meaning}».`,
      'Sign with that role and for that meaning.'
    )
  }
  return (
    refuseAll(stillAsked(machine, snapshot, state, event)) ?? {
      ok: true,
      snapshot: leave(machine, snapshot, state, exit, event.at)
    }
  )
}

export function late(machine: Machine, snapshot: Snapshot, state: State, event: Answer<'late'>): Advanced {
  const exit = lateExit(state, snapshot, event.at)
  if (exit === undefined) return refuse('too-early', 'No time limit has run out.', 'Go on with the step.')
  return { ok: true, snapshot: breakOff(machine, snapshot, leaveUndone(machine, snapshot, exit, event.at)) }
}

/** Steps that one may do differently, with a reason and a signature. The gates are none of them. */
export function deviation(machine: Machine, snapshot: Snapshot, state: State, event: Answer<'deviation'>): Advanced {
  const exit = state.exits.find(({ on }) => on === 'done')
  switch (state.kind) {
    case 'gather':
    case 'notify':
    case 'operate':
    case 'look':
    case 'live':
    case 'shutdown':
    case 'lamp':
    case 'work':
    case 'wait':
      break
    default:
      return refuse('not-asked', 'This step cannot be done differently.', 'Do it, repeat it, or stop the work here.')
  }
  if (exit === undefined) return notAsked(state, 'for a deviation')
  if (event.reason.trim() === '')
    return refuse('incomplete', 'A deviation needs a reason.', 'Say what was done differently and why.')
  return { ok: true, snapshot: leave(machine, snapshot, state, exit, event.at) }
}

export function finished(machine: Machine, snapshot: Snapshot, state: State, event: Answer<'finished'>): Advanced {
  if (state.kind !== 'finish') return notAsked(state, 'to finish')
  return (
    refuseAll(stillAsked(machine, snapshot, state, event)) ?? {
      ok: true,
      snapshot: { ...snapshot, status: 'finished' }
    }
  )
}

function notAsked(state: State, what: string): Advanced {
  return refuse('not-asked', `The step «${state.title}» does not ask ${what}.`, 'Answer what the step asks.')
}
