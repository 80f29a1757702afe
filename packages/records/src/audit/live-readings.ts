import { type Input, type Limits, type Snapshot, stateOf } from '@lockwright/machine'
import type { Entry } from '../entry.js'
import type { Evidence } from './evidence.js'
import type { Found } from './verdict.js'

type ReadingInput = Extract<Input, { readonly kind: 'reading' }>
type ReadingEntry = Entry & { readonly event: Extract<Entry['event'], { readonly kind: 'reading' }> }

/** A reading that was to show a source dead and did not. */
export interface LiveReading {
  readonly entry: ReadingEntry
  readonly input: ReadingInput
  /** The next reading of the same; null: there is none. */
  readonly next: ReadingEntry | null
  /** What people wrote between the reading and the next, or the end of the step. */
  readonly noted: readonly string[]
}

/** Every live reading of the entries that were replayed, in their order. */
export function liveReadings({ machine, replay, entries }: Evidence): readonly LiveReading[] {
  if (machine === null || replay === null) return []
  const taken = entries.slice(0, replay.snapshots.length - 1)
  return taken.flatMap((entry, index): readonly LiveReading[] => {
    if (!isReading(entry)) return []
    const { state } = replay.snapshots[index] as Snapshot
    const input = stateOf(machine, state).inputs.find((one) => one.id === entry.event.input)
    if (input?.kind !== 'reading' || input.source === null || isInside(entry.event.value, input.limits)) return []
    const after = taken.slice(index + 1)
    const again = after.findIndex((one) => isReading(one) && one.state === state && one.event.input === input.id)
    const left = after.findIndex((_, step) => replay.snapshots[index + 1 + step]?.state !== state)
    const end = [again, left].filter((place) => place !== -1)
    const next = again === -1 ? undefined : after[again]
    return [
      {
        entry,
        input,
        next: next !== undefined && isReading(next) ? next : null,
        noted: after.slice(0, end.length === 0 ? after.length : Math.min(...end)).flatMap(noteIn)
      }
    ]
  })
}

/** A live reading asks for an answer to why, whether or not the source was read dead afterwards. */
export function liveFound({ entry, input, next, noted }: LiveReading): Found {
  const limit = `the limit is ${tellLimits(input.limits, input.unit)}`
  const since =
    next === null ? 'It was not read again.' : `It was next read as ${next.event.typed}, at entry ${next.seq}.`
  const said = noted.length === 0 ? 'Nothing was noted of it.' : `What was noted: ${noted.join('; ')}`
  return {
    id: 'read-live',
    weight: 'doubt',
    seq: entry.seq,
    what: `While \`${input.source}\` was to be proven dead, ${input.label} was read as ${entry.event.typed}; ${limit}. ${since} ${said}`,
    danger: 'Energy was there where none was taken to be: the wrong device may be locked, or a contact may not open.',
    mend:
      next === null
        ? 'Find out whether it is still live and who knows of it.'
        : 'Find out why it was live, and what was done before the next reading.'
  }
}

/** `below 50 V`; `from 2 to 3 bar` */
export function tellLimits({ min, max, below }: Limits, unit: string): string {
  const parts = [
    ...(min === null ? [] : [`from ${min}`]),
    ...(max === null ? [] : [`to ${max}`]),
    ...(below === null ? [] : [below === 0 ? '0' : `below ${below}`])
  ]
  return `${parts.join(' ')} ${unit}`
}

/**
 * Own arithmetic, beside that of `advance`: between `min` and `max`, ends included; a level that must lie below `below`
 * counts by its size, its end excluded, and a level of 0 has to be 0.
 */
export function isInside(value: number, limits: Limits): boolean {
  const { min, max, below } = limits
  if ((min !== null && value < min) || (max !== null && value > max)) return false
  const level = Math.abs(value)
  return below === null || level < below || (below === 0 && level === 0)
}

function isReading(entry: Entry): entry is ReadingEntry {
  return entry.event.kind === 'reading'
}

function noteIn({ seq, event }: Entry): readonly string[] {
  if (event.kind === 'note') return [`"${event.text}" (entry ${seq})`]
  if (event.kind === 'paused' || event.kind === 'stopped' || event.kind === 'deviation') {
    return [`${event.kind === 'deviation' ? 'done differently' : event.kind}, "${event.reason}" (entry ${seq})`]
  }
  return []
}
