import {
  choice,
  deviation,
  done,
  finished,
  late,
  lockHung,
  lockRemoved,
  reading,
  signed,
  waitOver,
  waitStarted
} from './advance/answers.js'
import { provenAgain, resume, stop } from './advance/breaks.js'
import { handOver, join, leaveCrew, missingOwnLock, takeOffLeft } from './advance/crew.js'
import { closedGates } from './advance/gates.js'
import { arrive } from './advance/move.js'
import { refuse, refuseAll } from './advance/refusal.js'
import type { Event } from './event.js'
import type { Machine } from './machine.js'
import { stateOf } from './model.js'
import type { Advanced, Snapshot } from './snapshot.js'

type StateEvent = Extract<Event, { readonly state: unknown }>

/**
 * The next snapshot, or the reasons why the event is not taken. Pure: no clock, no input or output, no chance;
 * time comes in the event. The needs that the proof relied on are looked at again here, so no runner passes a gate.
 */
export function advance(machine: Machine, snapshot: Snapshot, event: Event): Advanced {
  const taken = statusRefusal(snapshot, event) ?? take(machine, snapshot, event)
  return taken.ok ? { ok: true, snapshot: { ...taken.snapshot, at: event.at } } : taken
}

/** What a run takes at all, given its status. */
function statusRefusal({ status, recheck }: Snapshot, event: Event): Advanced | null {
  switch (status) {
    case 'new':
      return event.kind === 'opened' ? null : refuse('closed', 'The run is not opened.', 'Open it first.')
    case 'paused':
      return ['resumed', 'note', 'attachment', 'stopped'].includes(event.kind)
        ? null
        : refuse('closed', 'The run is paused.', 'Resume it: look at the locks first.')
    case 'stopped':
    case 'finished':
      return refuse('closed', 'The run is closed.', 'Open a new run.')
    case 'running':
      if (event.kind === 'opened') return refuse('closed', 'The run is open already.', 'Go on with its step.')
      if (recheck.length === 0) return null
      return takenBeforeProof.has(event.kind)
        ? null
        : refuse(
            'recheck',
            `After the break these have to be proven dead again first: ${recheck.join(', ')}.`,
            'Prove each again, or stop the run.'
          )
  }
}

/** What brings no hands to the machine, and the proofs themselves; a shift that comes on may be the one that proves. */
const takenBeforeProof: ReadonlySet<Event['kind']> = new Set([
  'proven-again',
  'note',
  'attachment',
  'joined',
  'left',
  'handed-over',
  'paused',
  'resumed',
  'stopped'
])

function take(machine: Machine, snapshot: Snapshot, event: Event): Advanced {
  switch (event.kind) {
    case 'opened':
      return { ok: true, snapshot: arrive(machine, { ...snapshot, status: 'running' }, machine.start, event.at) }
    case 'joined':
      return join(snapshot, event)
    case 'left':
      return leaveCrew(snapshot, event.by)
    case 'handed-over':
      return handOver(snapshot, event)
    case 'note':
    case 'attachment':
      return { ok: true, snapshot }
    case 'paused':
      return { ok: true, snapshot: { ...snapshot, status: 'paused' } }
    case 'resumed':
      return resume(machine, snapshot, event)
    case 'proven-again':
      return provenAgain(machine, snapshot, event)
    case 'stopped':
      return stop(machine, snapshot, event)
    case 'done':
    case 'reading':
    case 'choice':
    case 'wait-started':
    case 'wait-over':
    case 'lock-hung':
    case 'lock-removed':
    case 'signed':
    case 'late':
    case 'deviation':
    case 'finished':
      return atState(machine, snapshot, event)
  }
}

/** An answer to the step where the run stands: the right step, its gates open, a lock of one's own, then the answer. */
function atState(machine: Machine, snapshot: Snapshot, event: StateEvent): Advanced {
  const state = stateOf(machine, snapshot.state)
  if (event.state !== snapshot.state) {
    return refuse(
      'not-asked',
      `The run stands at «${state.title}» (${state.id}), not at ${event.state}.`,
      'Answer the step where the run stands.'
    )
  }
  if (event.kind === 'late') return late(machine, snapshot, state, event)
  if (event.kind === 'lock-removed' && event.from !== undefined) return takeOffLeft(machine, snapshot, event)
  return (
    refuseAll(closedGates(machine, snapshot.ledger, state)) ??
    missingOwnLock(snapshot, state, event.by) ??
    answer(machine, snapshot, event)
  )
}

function answer(machine: Machine, snapshot: Snapshot, event: Exclude<StateEvent, { kind: 'late' }>): Advanced {
  const state = stateOf(machine, snapshot.state)
  switch (event.kind) {
    case 'done':
      return done(machine, snapshot, state, event)
    case 'reading':
      return reading(machine, snapshot, state, event)
    case 'choice':
      return choice(machine, snapshot, state, event)
    case 'wait-started':
      return waitStarted(machine, snapshot, state, event)
    case 'wait-over':
      return waitOver(machine, snapshot, state, event)
    case 'lock-hung':
      return lockHung(machine, snapshot, state, event)
    case 'lock-removed':
      return lockRemoved(snapshot, state, event)
    case 'signed':
      return signed(machine, snapshot, state, event)
    case 'deviation':
      return deviation(machine, snapshot, state, event)
    case 'finished':
      return finished(machine, snapshot, state, event)
  }
}
