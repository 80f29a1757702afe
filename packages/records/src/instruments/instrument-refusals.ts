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
 * Why a reading does not count, and is not recorded, so that the step asks for it again: the instrument is not known, not
 * in calibration, taken out of use, not built for what it is put to, not exact enough for so near a limit, or not the
 * tester that was proven. A reading that shows a source live where it was to be dead is recorded whatever showed it. Of
 * a live run of an issued machine, where the site keeps a list of instruments. Paper tells what has been; there the
 * audit says so.
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
    const input = readingIn(state, event.input)
    const { instrument, value } = event
    if (input !== null && showsLive(input, value)) return []
    const need = instrumentNeed(run.machine, state, event.input)
    const faults = instrumentFaults(instruments, need, { instrument, value, unit: input?.unit ?? null, at })
    if (faults.length > 0 || input === null || state.kind !== 'prove') return faults.map(asRefusal)
    return [...tooNear(instruments, instrument, input, value), ...otherTester(run, state, snapshot, event)]
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
  return state.kind === 'prove' ? twoTesters(testersIn(run, state, snapshot)) : []
}

/** A source that was to be dead is not. */
function showsLive({ limits }: ReadingInput, value: number): boolean {
  return limits.below !== null && !(Math.abs(value) < limits.below)
}

/**
 * One tester is proven before and after: what was not read yet is read with the one that was used last. Whoever changes
 * to another reads again with it what was read already, and the step is left once all was.
 */
function otherTester(
  run: Grounds,
  state: Prove,
  snapshot: Snapshot,
  { input, instrument = '' }: ReadingEvent
): readonly RunRefusal[] {
  if (!isElectrical(run, readingIn(state, input)?.source)) return []
  if (snapshot.progress.readings[input]?.inside === true) return []
  const others = testersIn(run, state, snapshot).filter(([id]) => id !== input)
  const tried = others.at(-1)?.[1] ?? instrument
  return tried === instrument ? [] : twoTesters([[input, instrument], ...others.slice(-1)])
}

/** With which tester each electrical reading of the step was taken that counts now, the last one last. */
function testersIn(run: Grounds, state: Prove, snapshot: Snapshot): readonly (readonly [string, string])[] {
  if (!state.inputs.some((input) => input.kind === 'box' && input.of === 'tester-before')) return []
  return [...lastReadings(run.entries, snapshot)].flatMap(([id, { instrument }]) => {
    const counts = snapshot.progress.readings[id]?.inside === true && isElectrical(run, readingIn(state, id)?.source)
    return counts && instrument !== undefined ? [[id, instrument] as const] : []
  })
}

type Prove = Extract<State, { readonly kind: 'prove' }>
type ReadingInput = NonNullable<ReturnType<typeof readingIn>>
type ReadingEvent = Extract<Entry['event'], { readonly kind: 'reading' }>

/** The last reading of each input since the run came to this step, in their order. */
function lastReadings(entries: readonly Entry[], { state, progress }: Snapshot): ReadonlyMap<string, ReadingEvent> {
  const last = new Map<string, ReadingEvent>()
  for (const { event } of entries) {
    if (event.kind === 'reading' && event.state === state && progress.readings[event.input] !== undefined) {
      last.delete(event.input)
      last.set(event.input, event)
    }
  }
  return last
}

function tooNear(
  instruments: Instruments,
  id: string | undefined,
  input: ReadingInput,
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

function twoTesters(used: readonly (readonly [string, string])[]): readonly RunRefusal[] {
  const [last = ''] = used.slice(-1).map(([, tester]) => tester)
  if (used.every(([, tester]) => tester === last)) return []
  const all = [...new Set(used.map(([, tester]) => tester))].map((tester) => `\`${tester}\``).join(' and ')
  return [
    refusal(
      `Readings of this step were taken with ${all}, and the boxes say that one tester was proven before and after.`,
      `Go on with \`${last}\`, and prove that it works before and after. Where it cannot be used any more, stop the run here.`
    )
  ]
}

function asRefusal({ why, mend }: InstrumentFault): RunRefusal {
  return refusal(why, mend)
}

function refusal(why: string, mend: string): RunRefusal {
  return { kind: 'instrument', obligation: null, why, mend }
}
