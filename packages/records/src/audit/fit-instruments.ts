import { type Snapshot, stateOf } from '@lockwright/machine'
import type { Entry } from '../entry.js'
import { type Instrument, type Instruments, instrumentOf } from '../instruments/instrument.js'
import { type InstrumentFault, instrumentFaults } from '../instruments/instrument-faults.js'
import { type InstrumentNeed, instrumentNeed, provenAgainNeed, readingIn } from '../instruments/instrument-need.js'
import { mayReachLimit, readingBound } from '../instruments/reading-bound.js'
import type { Evidence } from './evidence.js'
import { count, type Found } from './verdict.js'

type ReadingInput = NonNullable<ReturnType<typeof readingIn>>

/** A reading in the record with what it asked of its instrument. */
interface Judged {
  readonly entry: Entry
  readonly need: InstrumentNeed | null
  readonly input: ReadingInput | null
  readonly instrument: string | undefined
  readonly value: number
  /** Nothing was read of the same again before the step was left: work relied on this one. */
  readonly relied: boolean
}

/** Whether each instrument was known, in calibration, in use and strong enough on the day of its reading. */
export function instrumentsFound(evidence: Evidence): {
  readonly found: readonly Found[]
  readonly checked: readonly string[]
} {
  const { instruments } = evidence
  if (evidence.summary?.mode === 'rehearsal') return { found: [], checked: [] }
  if (!instruments.ok) return { found: [noList(instruments.faults[0])], checked: [] }
  if (instruments.value === null) return { found: missingList(evidence), checked: [] }
  const list = instruments.value
  const judged = judgedReadings(evidence)
  const named = new Set(judged.flatMap(({ instrument }) => (instrument === undefined ? [] : [instrument])))
  return {
    found: judged.flatMap((one) => readingFound(one, list)),
    checked: [
      `${count(named.size, 'instrument')} against list ${list.serial}: calibration, rating and range of that day`
    ]
  }
}

/** Readings name instruments, and no list says which those were: it was removed, or there never was one. */
function missingList({ entries }: Evidence): readonly Found[] {
  const named = entries.flatMap(({ seq, event }) => {
    const instrument = event.kind === 'reading' || event.kind === 'proven-again' ? event.instrument : undefined
    return instrument === undefined ? [] : [{ seq, instrument }]
  })
  const [first] = named
  if (first === undefined) return []
  const ids = [...new Set(named.map(({ instrument }) => `\`${instrument}\``))].join(', ')
  return [
    {
      id: 'instruments-missing',
      weight: 'doubt',
      seq: first.seq,
      file: 'instruments.yaml',
      what: `Readings name ${ids}, and there is no list of instruments here.`,
      danger: 'Whether they were in calibration and strong enough for the circuit cannot be told.',
      mend: 'Put `instruments.yaml` back; where none was ever kept, begin one with `instruments add`.'
    }
  ]
}

function judgedReadings({ machine, replay, entries }: Evidence): readonly Judged[] {
  if (machine === null || replay === null) return []
  const taken = entries.slice(0, replay.snapshots.length - 1)
  return taken.flatMap((entry, index): readonly Judged[] => {
    const { event } = entry
    if (event.kind === 'reading') {
      const state = stateOf(machine, (replay.snapshots[index] as Snapshot).state)
      const input = readingIn(state, event.input)
      const { instrument, value } = event
      const left = replay.snapshots.findIndex((after, later) => later > index && after.state !== state.id)
      const after = taken.slice(index + 1, left === -1 ? taken.length : left)
      const relied = !after.some((later) => later.event.kind === 'reading' && later.event.input === event.input)
      return [{ entry, need: instrumentNeed(machine, state, event.input), input, instrument, value, relied }]
    }
    if (event.kind !== 'proven-again' || event.value === null) return []
    const need = provenAgainNeed(machine, event.source)
    const input = machine.states
      .flatMap(({ inputs }) => inputs)
      .find((one): one is ReadingInput => one.kind === 'reading' && one.source === event.source)
    return [{ entry, need, input: input ?? null, instrument: event.instrument, value: event.value, relied: true }]
  })
}

function readingFound(one: Judged, list: Instruments): readonly Found[] {
  const { entry, need, input, instrument, value } = one
  const faults = instrumentFaults(list, need, { instrument, value, unit: input?.unit ?? null, at: entry.at })
  const known = instrument === undefined ? null : instrumentOf(list, instrument)
  const near = known === null || input === null || input.source === null ? [] : nearFound(one, known, input)
  return [...faults.map((fault) => faultFound(entry, fault)), ...near]
}

/** Nothing to be said against an instrument that nobody named; and what a sheet has no blank for is not held against it. */
function faultFound({ seq }: Entry, { id, why, danger, mend }: InstrumentFault): Found {
  const missing = id === 'instrument-not-named'
  return {
    id,
    weight: missing ? 'doubt' : 'fault',
    seq,
    what: why,
    danger,
    mend: missing ? 'Ask the person named which one it was.' : (afterwards[id] ?? mend)
  }
}

const afterwards: Partial<Record<InstrumentFault['id'], string>> = {
  'instrument-unknown': 'Find out which one it was; have it entered if it belongs to the site.',
  'instrument-withdrawn': 'Have the work that relied on the reading looked at.',
  'instrument-not-calibrated':
    'Have the instrument calibrated as it is now: what it shows wrong tells what the reading was worth.',
  'instrument-wrong-kind': 'Have the work that relied on the reading looked at.',
  'instrument-under-rated': 'Ask how it was used, and take it away from where it can be put to such a circuit again.',
  'instrument-out-of-range': 'Have the work that relied on the reading looked at.'
}

function nearFound({ entry, value, relied }: Judged, instrument: Instrument, input: ReadingInput): readonly Found[] {
  if (!relied || !mayReachLimit(instrument, input.limits, value, input.unit)) return []
  const bound = Number((readingBound(instrument, value, input.unit) ?? 0).toPrecision(2))
  return [
    {
      id: 'near-the-limit',
      weight: 'doubt',
      seq: entry.seq,
      what: `${input.label} was read as ${value} ${input.unit}; \`${instrument.id}\` may be wrong by ${bound} ${input.unit}, which reaches the limit of ${input.limits.below} ${input.unit}.`,
      danger: 'It may not have been dead.',
      mend: 'Find out how it was known to be dead before anybody put hands to it.'
    }
  ]
}

function noList({
  what,
  danger,
  mend
}: {
  readonly what: string
  readonly danger: string
  readonly mend: string
}): Found {
  return { id: 'instruments-unsound', weight: 'fault', seq: null, what, danger, mend }
}
