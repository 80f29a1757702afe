import type { Machine } from '@lockwright/machine'
import type { Entry } from '../entry.js'
import type { Evidence } from './evidence.js'

/** A wait that was ended, as far as the journal was replayed. */
export interface EndedWait {
  readonly start: Entry
  readonly end: Entry
  readonly title: string
  readonly source: string | null
  /** Seconds that the machine asks for. */
  readonly needed: number
}

/** Each wait that was begun and ended, in the order of the ends. */
export function endedWaits({ machine, replay, entries }: Evidence): readonly EndedWait[] {
  if (machine === null || replay === null) return []
  return waitsIn(machine, entries.slice(0, replay.snapshots.length - 1))
}

/** The same of any entries, whether or not they could be replayed. */
export function waitsIn(machine: Machine, entries: readonly Entry[]): readonly EndedWait[] {
  const begun = new Map<string, Entry>()
  return entries.flatMap((entry): readonly EndedWait[] => {
    const { event } = entry
    if (event.kind === 'wait-started') begun.set(`${event.state} ${event.input}`, entry)
    if (event.kind !== 'wait-over') return []
    const start = begun.get(`${event.state} ${event.input}`)
    const state = machine.states.find(({ id }) => id === event.state)
    const wait = state?.inputs.find((input) => input.id === event.input)
    if (start === undefined || state === undefined || wait?.kind !== 'wait') return []
    return [{ start, end: entry, title: state.title, source: wait.source, needed: wait.seconds }]
  })
}
