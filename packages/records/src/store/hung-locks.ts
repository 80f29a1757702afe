import type { Entry } from '../entry.js'
import type { HungLock } from './store.js'

/**
 * Locks that hang by what the entries say. No machine is replayed, so a list of many runs can be had cheaply; the audit
 * of a run replays it and has the last word. A rehearsal hangs none on any equipment.
 */
export function hungLocks(entries: readonly Entry[]): readonly HungLock[] {
  const [first] = entries
  if (first?.event.kind === 'opened' && first.event.mode === 'rehearsal') return []
  let hung: readonly HungLock[] = []
  for (const { at, by, event } of entries) {
    if (event.kind === 'lock-hung') hung = [...hung, { point: event.point, lock: event.lock, person: by, since: at }]
    else if (event.kind === 'joined') hung = [...hung, ...event.locks.map((one) => ({ ...one, person: by, since: at }))]
    else if (event.kind === 'left') hung = hung.filter((one) => one.person !== by)
    else if (event.kind === 'handed-over') {
      const incoming = event.locks.map((one) => ({ ...one, person: event.to, since: at }))
      hung = [...hung, ...incoming].filter((one) => one.person !== by)
    } else if (event.kind === 'lock-removed') {
      const { owner, point } = event
      hung = hung.filter((one) => one.person !== owner || one.point !== point)
    }
  }
  return hung
}
