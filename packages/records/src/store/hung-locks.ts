import type { Entry } from '../entry.js'
import type { HungLock } from './store.js'

/**
 * Locks that hang by what the entries say. No machine is replayed, so a list of many runs can be had cheaply; the audit
 * of a run replays it and has the last word. A rehearsal hangs none on any equipment.
 */
export function hungLocks(entries: readonly Entry[]): readonly HungLock[] {
  const [first] = entries
  if (first?.event.kind === 'opened' && first.event.mode === 'rehearsal') return []
  return entries.reduce<readonly HungLock[]>(hungAfter, [])
}

/** Locks that hang after an entry, of those that hung before it. */
export function hungAfter(hung: readonly HungLock[], { at, by, event }: Entry): readonly HungLock[] {
  switch (event.kind) {
    case 'lock-hung':
      return [...hung, { point: event.point, lock: event.lock, person: by, since: at }]
    case 'joined':
      return [...hung, ...event.locks.map((one) => ({ ...one, person: by, since: at }))]
    case 'left':
      return hung.filter((one) => one.person !== by)
    case 'handed-over': {
      const incoming = event.locks.map((one) => ({ ...one, person: event.to, since: at }))
      return [...hung, ...incoming].filter((one) => one.person !== by)
    }
    case 'lock-removed':
      // One that an earlier run left on: this run never hung it.
      if (event.from !== undefined) return hung
      return hung.filter((one) => one.person !== event.owner || one.point !== event.point)
    default:
      return hung
  }
}
