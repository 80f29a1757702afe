import { advance, type Event, type Snapshot, start } from '@lockwright/machine'
import type { RunEvent } from '@lockwright/records'
import type { Recorded, RunPort, Taken } from '../run-port.js'
import { tellEntry } from '../step/tell-entry.js'

/** A run as the answers of a file see it. */
export interface AnsweredRun extends RunPort {
  /** Entries that the record holds and the answers have not come to yet; 0 where they go on from its end. */
  readonly ahead: () => number
}

export interface AnsweredOptions {
  /** The answers are those of a whole sheet of which this run holds a part. */
  readonly goesOn: boolean
  /** The instrument of a reading, where it comes from a printed sheet; undefined: none is said. */
  readonly instrumentFor: (event: RunEvent) => string | undefined
}

/**
 * The same run, in which each reading names its instrument. Where it goes on with a sheet, its entries are walked through
 * from the first on: what the sheet says is compared with each, and only what comes after the last is recorded. So nothing
 * that stands is recorded again, and nothing that the sheet says otherwise now is passed over.
 */
export function answeredRun(run: RunPort, { goesOn, instrumentFor }: AnsweredOptions): AnsweredRun {
  const { machine } = run
  const held = goesOn ? [...run.entries] : []
  let walked = 0
  let snapshot: Snapshot = start(machine)
  const late: RunEvent[] = []

  const step = (event: Event): Snapshot => {
    const moved = advance(machine, snapshot, event)
    if (!moved.ok) throw new Error(`an entry on record does not follow: ${moved.refusals[0].why}`)
    walked += 1
    return moved.snapshot
  }
  /** What no answer of the sheet brings about: its opening, and the pages that were kept with it. */
  const passSilent = (): void => {
    for (let next = held[walked]; next !== undefined && isSilent(next); next = held[walked])
      snapshot = step(asEvent(next))
  }
  passSilent()

  const walk = (event: RunEvent, next: Recorded): Taken => {
    if (sameEvent(event, next)) {
      snapshot = step(asEvent(next))
      passSilent()
      return { ok: true, snapshot }
    }
    // What was refused the first time is refused again; the entry on record is what came after it.
    const moved = advance(machine, snapshot, event as Event)
    if (!moved.ok && (event.kind !== next.event.kind || event.kind === 'proven-again')) return moved
    if (event.kind === 'note' && next.event.kind !== 'note') {
      late.push(event)
      return { ok: true, snapshot }
    }
    return differs(machine, event, next, snapshot)
  }
  const taken = (event: RunEvent, pass: (named: RunEvent) => Taken): Taken => {
    const named = withInstrument(event, instrumentFor(event))
    const next = held[walked]
    if (next !== undefined) return walk(named, next)
    for (const note of late.splice(0)) run.take({ ...note, at: run.snapshot.at })
    return pass(named)
  }

  return {
    mode: run.mode,
    machine,
    get snapshot() {
      return walked < held.length ? snapshot : run.snapshot
    },
    get entries() {
      return walked < held.length ? held.slice(0, walked) : run.entries
    },
    take: (event) => taken(event, (named) => run.take(named)),
    sign: (event, signer) => taken(event, (named) => run.sign(named, signer)),
    ahead: () => held.length - walked
  }
}

function withInstrument(event: RunEvent, instrument: string | undefined): RunEvent {
  const reads = event.kind === 'reading' || event.kind === 'proven-again'
  return reads && event.instrument === undefined && instrument !== undefined ? { ...event, instrument } : event
}

function isSilent({ event: { kind } }: Recorded): boolean {
  return kind === 'opened' || kind === 'attachment'
}

function asEvent({ at, by, event }: Recorded): Event {
  return { ...event, at, by } as Event
}

function sameEvent({ at, by, ...event }: RunEvent, recorded: Recorded): boolean {
  return (
    by === recorded.by &&
    (at === undefined || Date.parse(at) === Date.parse(recorded.at)) &&
    same(event, recorded.event)
  )
}

function same(one: unknown, other: unknown): boolean {
  if (typeof one !== 'object' || one === null || typeof other !== 'object' || other === null) return one === other
  const [left, right] = [one, other].map((value) => Object.entries(value).filter(([, part]) => part !== undefined))
  if (left === undefined || right === undefined || left.length !== right.length) return false
  const parts = new Map(right)
  return left.every(([key, part]) => parts.has(key) && same(part, parts.get(key)))
}

function differs(machine: RunPort['machine'], event: RunEvent, next: Recorded, { state, at }: Snapshot): Taken {
  const { at: told = at, by, ...bare } = event
  const has = tell(machine, next)
  const says = tell(machine, { at: told, by, state, event: bare as Recorded['event'] })
  return {
    ok: false,
    refusals: [
      {
        kind: 'incomplete',
        obligation: null,
        why: `The record has \`${has}\`, and what is given now says \`${says}\`.`,
        mend: 'What stands on record stays. See which of the two is on the sheet; give the sheet as it was entered, and tell in a note what was wrong.'
      }
    ]
  }
}

function tell(machine: RunPort['machine'], recorded: Recorded): string {
  const { at, by, event } = recorded
  const more = 'instrument' in event && typeof event.instrument === 'string' ? `, read with ${event.instrument}` : ''
  return `${tellEntry(machine, recorded)}${more}, by ${by}, at ${at.replace('.000Z', 'Z')}`
}
