import type { Clock } from './clock.js'
import { diskInUse } from './disk/disk-in-use.js'
import { writeDurably } from './durable-file.js'
import type { Entry, RunId } from './entry.js'
import { layout, type Site } from './site.js'

/** One session of a run: what its clock has to be put back by to give the time since the run was opened. */
interface Noted {
  readonly session: number
  readonly zero: string
  /** Milliseconds: `elapsed` of the clock less `elapsed` of the entry, the same all through a session. */
  readonly ahead: number
}

export interface SessionClock {
  /** The stamp of an entry that is made now. */
  now(): { readonly at: string; readonly elapsed: number; readonly session: number }
  /** To be called before the first entry of the session is written. */
  note(): void
  /** Nothing but the wall clock counted since the entry before this session. */
  readonly isByWall: boolean
}

/**
 * Time since the run was opened. Within one session by the clock that never runs back. Across a break by the same clock,
 * as long as the computer was not started anew: how far it was ahead of the run stands beside the journal, in a file that
 * is believed only where its session is that of the journal's last entry. Else the wall clock bridges the gap, and a
 * gap that it says was negative counts as none.
 */
export function sessionClock(from: {
  readonly site: Site
  readonly id: RunId
  readonly clock: Clock
  readonly entries: readonly Entry[]
}): SessionClock {
  const { clock, site, id } = from
  const begun = clock.now()
  const last = from.entries.at(-1)
  const zero = clock.zero ?? ''
  const kept = last === undefined || zero === '' ? [] : readNoted(site, id)
  const lastNoted = kept.find((one) => one.session === last?.session && one.zero === zero)
  const lastAt = last?.entered?.at ?? last?.at ?? begun.at
  const byWall = Math.max(0, Date.parse(begun.at) - Date.parse(lastAt))
  const steady = last === undefined || lastNoted === undefined ? null : begun.elapsed - lastNoted.ahead - last.elapsed
  // A clock that shows whole seconds may seem to run back by one; by more, the file is not that of this run.
  const bridged = steady === null || steady < -1000 ? null : Math.max(0, steady)
  const before = (last?.elapsed ?? 0) + (bridged ?? byWall)
  const session = (last?.session ?? 0) + 1
  let isNoted = zero === ''
  return {
    now: () => {
      const now = clock.now()
      return { at: now.at, elapsed: Math.floor(before + Math.max(0, now.elapsed - begun.elapsed)), session }
    },
    note: () => {
      if (isNoted) return
      isNoted = true
      // The session before stays beside it: this one may be broken off before its first entry.
      const former = kept.filter((one) => one.session === last?.session)
      writeNoted(site, id, [...former, { session, zero, ahead: begun.elapsed - before }])
    },
    isByWall: last !== undefined && bridged === null
  }
}

function readNoted(site: Site, id: RunId): readonly Noted[] {
  try {
    const read: unknown = JSON.parse(Buffer.from(diskInUse().read(layout.clock(site, id))).toString('utf8'))
    return Array.isArray(read) ? read.filter(isNoted) : []
  } catch {
    // It never was written, or cannot be read: the wall clock has to do, and that is told.
    return []
  }
}

function isNoted(value: unknown): value is Noted {
  const { session, zero, ahead } = (value ?? {}) as Partial<Noted>
  return Number.isInteger(session) && typeof zero === 'string' && typeof ahead === 'number' && Number.isFinite(ahead)
}

function writeNoted(site: Site, id: RunId, noted: readonly Noted[]): void {
  try {
    writeDurably(layout.clock(site, id), `${JSON.stringify(noted)}\n`)
  } catch {
    // Work is not held up by it: without the file the wall clock counts, as the run says then.
  }
}
