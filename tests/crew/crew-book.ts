import type { Event, Ledger, Machine, Snapshot, State } from '@lockwright/machine'
import { stateOf, statuses } from '@lockwright/machine'

/** A padlock on a device, by whoever hung it. */
export interface Padlock {
  readonly person: string
  readonly point: string
  readonly lock: string
}

/**
 * What the rules say of a crew, kept beside `advance` and sharing nothing with it: who hung what, and which energies
 * were verified since the last break. Each rule with its paragraph of 29 CFR 1910.147.
 */
export interface Book {
  readonly locks: readonly Padlock[]
  /** Sources verified dead with nothing since that could have brought energy back. */
  readonly fresh: readonly string[]
}

export const emptyBook: Book = { locks: [], fresh: [] }

/** (f)(3)(ii)(D): whoever works has a personal lock on before; here, at which steps hands are in or at the machine. */
const handsOn: ReadonlySet<State['kind']> = new Set([
  'relieve',
  'restrain',
  'prove',
  'work',
  'remove',
  'live',
  'inspect'
])

export interface Seen {
  readonly machine: Machine
  readonly before: Snapshot
  readonly event: Event
  readonly after: Snapshot
  readonly book: Book
}

/** The book after an event that was taken, and every rule that taking it broke. */
export function entered({ machine, before, event, after, book }: Seen): {
  readonly book: Book
  readonly broken: readonly string[]
} {
  const state = stateOf(machine, before.state)
  const locks = locksAfter(book.locks, event)
  const broken = [
    ...crewBroken(state, before.ledger, event, book),
    ...removalBroken(event),
    ...energyBroken(state, event, book.locks),
    ...(same(locks, after.locks) ? [] : ['the list of locks is another than what was hung and taken off']),
    ...(new Set(after.locks.map(({ lock }) => lock.trim())).size < after.locks.length
      ? ['one padlock hangs in two places']
      : [])
  ]
  const stale = touchedBy(machine, before, state, event).filter((id) => !book.fresh.includes(id))
  return {
    book: { locks, fresh: freshAfter(state, event, after, locks, book.fresh) },
    broken: [
      ...broken,
      // (d)(6), and (f)(1)(v) for what was energized between.
      ...stale.map((id) => `work began though ${id} was not verified since energy could have come back`)
    ]
  }
}

/** What hands-on work touches: every energy that is there, less what is left on by the procedure with a reason. */
function touchedBy(machine: Machine, before: Snapshot, state: State, event: Event): readonly string[] {
  if (event.kind !== 'done' || state.kind !== 'work') return []
  const leftOn: readonly string[] = [...state.leaves, ...machine.leftOn.map(({ source }) => source)]
  return statuses(machine, before.ledger)
    .filter(({ source, present }) => present && !leftOn.includes(source))
    .map(({ source }) => source)
}

function locksAfter(locks: readonly Padlock[], event: Event): readonly Padlock[] {
  const on = (person: string, hung: readonly { readonly point: string; readonly lock: string }[]): Padlock[] =>
    hung.map(({ point, lock }) => ({ person, point, lock }))
  switch (event.kind) {
    case 'lock-hung':
      return [...locks, ...on(event.by, [event])]
    case 'joined':
      return [...locks, ...on(event.by, event.locks)]
    case 'left':
      return locks.filter(({ person }) => person !== event.by)
    case 'handed-over':
      return [...locks, ...on(event.to, event.locks)].filter(({ person }) => person !== event.by)
    case 'lock-removed':
      return locks.filter(({ person, point }) => person !== event.owner || point !== event.point)
    default:
      return locks
  }
}

const lockedIn = ({ points }: Ledger): readonly string[] =>
  Object.entries(points).flatMap(([point, position]) => (position === 'locked' ? [point] : []))

/** (f)(3)(ii)(D), and (f)(4) for those who come on with a shift. */
function crewBroken(state: State, ledger: Ledger, event: Event, { locks }: Book): readonly string[] {
  const answers = ['done', 'reading', 'choice', 'deviation', 'wait-started', 'wait-over'].includes(event.kind)
  const hands = (answers && handsOn.has(state.kind)) || event.kind === 'proven-again'
  if (!hands) return []
  const people = new Set([...locks.map(({ person }) => person), event.by as string])
  return [...people].flatMap((person) =>
    lockedIn(ledger)
      .filter((point) => !locks.some((lock) => lock.person === person && lock.point === point))
      .map((point) => `${event.kind} at ${state.kind} while ${person} has no lock on ${point}`)
  )
}

/** (e)(3): each lock by the person who put it on; else the three conditions. */
function removalBroken(event: Event): readonly string[] {
  if (event.kind !== 'lock-removed' || event.owner === event.by) return []
  const { verifiedAway = '', triedToReach = '', toldBeforeReturn = '' } = event.absent ?? {}
  return [verifiedAway, triedToReach, toldBeforeReturn].some((text) => text.trim() === '')
    ? [`the lock of ${event.owner} was taken off by ${event.by} without the three conditions`]
    : []
}

/** (e)(2), (e)(3): no energy while somebody's lock is on, and nothing goes back to service with a lock left. */
function energyBroken(state: State, event: Event, locks: readonly Padlock[]): readonly string[] {
  if (event.kind === 'finished' && locks.length > 0) return ['returned to service with locks on']
  if (event.kind !== 'done' || (state.kind !== 'energize' && state.kind !== 'unlock')) return []
  return locks
    .filter(({ point }) => state.points.some((one) => one === point))
    .map(({ person, point }) => `${state.kind} of ${point} while the lock of ${person} hangs on it`)
}

function freshAfter(
  state: State,
  event: Event,
  after: Snapshot,
  locks: readonly Padlock[],
  fresh: readonly string[]
): readonly string[] {
  if (event.kind === 'paused') return []
  const bare = lockedIn(after.ledger).some((point) => !locks.some((lock) => lock.point === point))
  const unlocking = event.kind === 'lock-removed'
  if ((bare && !unlocking) || (event.kind === 'done' && state.kind === 'unlock')) return []
  if (event.kind === 'proven-again') return [...fresh, event.source]
  if (event.kind === 'done' && state.kind === 'prove') return [...fresh, ...state.sources]
  return fresh
}

function same(one: readonly Padlock[], other: readonly Padlock[]): boolean {
  const told = (locks: readonly Padlock[]): string =>
    locks
      .map(({ person, point, lock }) => `${person} ${point} ${lock}`)
      .toSorted()
      .join('\n')
  return told(one) === told(other)
}
