import { type Snapshot, type State, stateOf } from '@lockwright/machine'
import { isElectricalKind } from '@lockwright/proof'
import type { Entry } from '../entry.js'
import type { LiveRun } from '../live-run.js'
import type { RunRefusal } from '../run-types.js'
import { type Instruments, instrumentOf } from './instrument.js'
import { type InstrumentFault, instrumentFaults } from './instrument-faults.js'
import { instrumentNeed, provenAgainNeed, readingIn } from './instrument-need.js'
import { readInstruments } from './keep-instruments.js'
import { mayReachLimit, readingBound } from './reading-bound.js'

type Grounds = Pick<LiveRun, 'site' | 'machine' | 'mode' | 'enteredBy' | 'entries'>

/**
 * Why a reading does not count, or why a step may not be left on the readings taken in it: the instrument is not known,
 * not in calibration, taken out of use, or not built for what it is put to. Of a live run of an issued machine, where
 * the site keeps a list of instruments. Paper tells what has been; there the audit says so.
 */
export function instrumentRefusals(run: Grounds, entry: Entry, snapshot: Snapshot): readonly RunRefusal[] {
  const { kind } = entry.event
  const asks = kind === 'reading' || kind === 'proven-again' || kind === 'done'
  if (!asks || run.mode !== 'issued' || run.enteredBy !== null) return []
  const instruments = readInstruments(run.site)
  if (!instruments.ok) return [refusal(instruments.faults[0].what, instruments.faults[0].mend)]
  return instruments.value === null ? [] : judge(run, entry, snapshot, instruments.value)
}

function judge(run: Grounds, entry: Entry, snapshot: Snapshot, instruments: Instruments): readonly RunRefusal[] {
  const { event, at } = entry
  const state = stateOf(run.machine, snapshot.state)
  if (event.kind === 'reading') {
    const unit = readingIn(state, event.input)?.unit ?? null
    const need = instrumentNeed(run.machine, state, event.input)
    const { instrument, value } = event
    return instrumentFaults(instruments, need, { instrument, value, unit, at }).map(asRefusal)
  }
  if (event.kind === 'proven-again') {
    const { instrument, value } = event
    const need = provenAgainNeed(run.machine, event.source)
    if (need === null || value === null) return []
    const input = inputOf(run, event.source)
    const faults = instrumentFaults(instruments, need, { instrument, value, unit: input?.unit ?? null, at })
    if (faults.length > 0 || input === null) return faults.map(asRefusal)
    return tooNear(instruments, instrument, input, value)
  }
  return state.kind === 'prove' ? leaving(run, state, snapshot, instruments) : []
}

/** The readings on which a prove step is about to be left, each the last of its input. */
function leaving(
  run: Grounds,
  state: Extract<State, { readonly kind: 'prove' }>,
  snapshot: Snapshot,
  instruments: Instruments
): readonly RunRefusal[] {
  const here = lastReadings(run.entries, snapshot)
  const near = [...here].flatMap(([id, event]) => {
    const input = readingIn(state, id)
    return input === null ? [] : tooNear(instruments, event.instrument, input, event.value)
  })
  const testers = new Set(
    [...here].flatMap(([id, event]) => (isElectrical(run, readingIn(state, id)?.source) ? [event.instrument] : []))
  )
  const tested = state.inputs.some((input) => input.kind === 'box' && input.of === 'tester-before')
  return tested && testers.size > 1 ? [...near, twoTesters([...testers])] : near
}

type ReadingEvent = Extract<Entry['event'], { readonly kind: 'reading' }>

/** The last reading of each input since the run came to this step. */
function lastReadings(entries: readonly Entry[], { state, progress }: Snapshot): ReadonlyMap<string, ReadingEvent> {
  const last = new Map<string, ReadingEvent>()
  for (const { event } of entries) {
    if (event.kind === 'reading' && event.state === state && progress.readings[event.input] !== undefined) {
      last.set(event.input, event)
    }
  }
  return last
}

function tooNear(
  instruments: Instruments,
  id: string | undefined,
  input: NonNullable<ReturnType<typeof readingIn>>,
  value: number
): readonly RunRefusal[] {
  const instrument = id === undefined ? null : instrumentOf(instruments, id)
  if (instrument === null || !mayReachLimit(instrument, input.limits, value, input.unit)) return []
  const bound = (readingBound(instrument, value, input.unit) ?? 0).toPrecision(2)
  return [
    refusal(
      `${input.label} was read as ${value} ${input.unit}, and \`${id}\` may be wrong by ${Number(bound)} ${input.unit}: that reaches the limit of ${input.limits.below} ${input.unit}.`,
      'Treat it as live. Find out why it is not lower, then read it again; or read it with an instrument that is more exact.'
    )
  ]
}

function inputOf({ machine }: Grounds, source: string): ReturnType<typeof readingIn> {
  for (const { inputs } of machine.states) {
    for (const input of inputs) if (input.kind === 'reading' && input.source === source) return input
  }
  return null
}

function isElectrical({ machine }: Grounds, id: string | null | undefined): boolean {
  const source = machine.sources.find((one) => one.id === id)
  return source !== undefined && isElectricalKind(source.kind)
}

function twoTesters(ids: readonly (string | undefined)[]): RunRefusal {
  return refusal(
    `Readings of this step were taken with ${ids.map((id) => `\`${id}\``).join(' and ')}, and the boxes say that one tester was proven before and after.`,
    'Take all of them with the tester that was proven, and prove it again.'
  )
}

function asRefusal({ why, mend }: InstrumentFault): RunRefusal {
  return refusal(why, mend)
}

function refusal(why: string, mend: string): RunRefusal {
  return { kind: 'instrument', obligation: null, why, mend }
}
