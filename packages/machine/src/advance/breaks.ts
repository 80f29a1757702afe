import type { SourceId } from '@lockwright/language'
import { withinLimits } from '../asked.js'
import type { Event } from '../event.js'
import { pack, statuses } from '../ledger.js'
import type { Machine } from '../machine.js'
import { modelOf } from '../model.js'
import { derive, emptyDerived } from '../settle.js'
import type { Advanced, Snapshot } from '../snapshot.js'
import { meets } from '../step.js'
import { barePoints, withoutOwnLock } from './crew.js'
import { listed, refuse } from './refusal.js'

/**
 * Going on after a break. The locks are looked at; and what was proven is proven again where energy could have come
 * back: after a pause (the machine was left alone) everything, after a fault of the tablet what rebuilds by itself.
 */
export function resume(machine: Machine, snapshot: Snapshot, event: Extract<Event, { kind: 'resumed' }>): Advanced {
  if (!event.locksOn && snapshot.locks.length > 0) {
    return refuse(
      'crew',
      `Not every lock was found on: ${listed(snapshot.locks.map(({ lock, point }) => `${lock} on ${point}`))}.`,
      'A missing lock means that the machine may be live. Keep everybody away and stop the run by hand.'
    )
  }
  const left = snapshot.status === 'paused'
  const again = provenSources(machine, snapshot).filter(
    (id) =>
      left || snapshot.recheck.includes(id) || machine.sources.some((source) => source.id === id && source.rebuilds)
  )
  return { ok: true, snapshot: askAgain({ ...snapshot, status: 'running' }, again) }
}

/** Everything that counts as proven dead now. */
function provenSources(machine: Machine, snapshot: Snapshot): readonly SourceId[] {
  return statuses(machine, snapshot.ledger)
    .filter(({ present, proven }) => present && proven)
    .map(({ source }) => source)
}

/**
 * These are to be proven again before anything goes on. Where the machine was inspected and closed up since, nobody
 * opens it for that: it goes back to service, and the proofs end, so that no more work begins on them.
 */
function askAgain(snapshot: Snapshot, sources: readonly SourceId[]): Snapshot {
  const { ledger } = snapshot
  if (!ledger.inspected) return { ...snapshot, recheck: sources }
  const ended = Object.fromEntries(sources.map((id) => [id, false]))
  return { ...snapshot, recheck: [], ledger: { ...ledger, proofs: { ...ledger.proofs, ...ended } } }
}

/**
 * An unlocking that was begun is broken off: from where a lock came off the device could have been switched on, though
 * another hangs there by now. Then nothing counts as proven any more.
 */
export function breakOff(machine: Machine, before: Snapshot, after: Snapshot): Snapshot {
  const begun = before.progress.unlocked.length > 0 || barePoints(after).length > 0
  return begun ? askAgain(after, provenSources(machine, after)) : after
}

/** One source verified again; a reading has to lie below its limit, where it has one. */
export function provenAgain(
  machine: Machine,
  snapshot: Snapshot,
  event: Extract<Event, { kind: 'proven-again' }>
): Advanced {
  if (!snapshot.recheck.includes(event.source)) {
    return refuse('not-asked', `${event.source} is not waiting to be proven again.`, 'Prove what the list names.')
  }
  const unlocked = withoutOwnLock(snapshot, event.by)
  if (unlocked !== null) return unlocked
  const below = limitOf(machine, event.source)
  if (below !== null) {
    if (event.value === null) {
      return refuse('incomplete', `${event.source} is proven by a reading.`, 'Take the reading and enter it.')
    }
    if (!Number.isFinite(event.value) || !withinLimits({ min: null, max: null, below }, event.value)) {
      return refuse(
        'out-of-limits',
        `The reading of ${event.source} is ${event.typed}: it is not dead any more.`,
        'Treat it as live. Stop the run here and find out why the energy came back.'
      )
    }
  }
  return { ok: true, snapshot: { ...snapshot, recheck: snapshot.recheck.filter((id) => id !== event.source) } }
}

/** The limit that the prove steps of a source set for its readings; null where it is proven by trial. */
function limitOf(machine: Machine, source: SourceId): number | null {
  for (const { inputs } of machine.states) {
    for (const input of inputs) {
      if (input.kind === 'reading' && input.source === source) return input.limits.below
    }
  }
  return null
}

/** A stop, at a stop step or by hand: opened equipment that could be energized is not left without a word. */
export function stop(machine: Machine, snapshot: Snapshot, event: Extract<Event, { kind: 'stopped' }>): Advanced {
  const model = modelOf(machine)
  const packed = pack(model, snapshot.ledger)
  const derived = emptyDerived(model)
  derive(model, packed, derived)
  const kept = snapshot.ledger.inspected || meets(model, packed, derived, { is: 'touched-still' })
  if (!kept && (event.left ?? '').trim() === '') {
    const open = statuses(machine, snapshot.ledger)
      .filter(({ source, still }) => snapshot.ledger.touched.includes(source) && !still)
      .map(({ source }) => source)
    return refuse(
      'gate',
      `The machine is opened up and ${listed(open)} could be energized.`,
      'Lock what feeds it, or close the machine up and inspect it; then stop. If that cannot be done, say in what condition it is left and who guards it.',
      'stop-safe'
    )
  }
  return { ok: true, snapshot: { ...snapshot, status: 'stopped' } }
}
