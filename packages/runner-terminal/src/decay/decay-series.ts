import { convert, type Dimension, dimensionOf } from '@lockwright/energy'
import {
  advance,
  type Event,
  type Input,
  type Machine,
  type MachineSource,
  type Snapshot,
  start,
  stateOf,
  statuses
} from '@lockwright/machine'
import type { Recorded } from '../run-port.js'
import { readingOf } from '../step/asked.js'

/** One reading of a series. */
export interface TakenReading {
  /** RFC 3339. */
  readonly at: string
  readonly typed: string
  /** In the unit of the series; the size alone, a voltage the wrong way round is no less. */
  readonly value: number
  readonly inside: boolean
}

/** Readings of one source at one place, since it was last shut off from what feeds it; in the order of their times. */
export interface DecaySeries {
  readonly source: MachineSource
  /** What was measured, as the step words it. */
  readonly label: string
  /** The unit that was asked for, and the SI unit of the same. */
  readonly unit: string
  readonly siUnit: string
  readonly readings: readonly TakenReading[]
  /** RFC 3339; when what it holds was let out, or it was shorted or earthed. */
  readonly letOutAt: readonly string[]
}

/** Every series of a run, in the order in which they were begun. */
export function decaySeries(machine: Machine, entries: readonly Recorded[]): readonly DecaySeries[] {
  let series: readonly DecaySeries[] = []
  let letOut: readonly LetOut[] = []
  let before = start(machine)
  for (const { at, by, event } of entries) {
    const advanced = advance(machine, before, { ...event, at, by } as Event)
    if (!advanced.ok) break
    const after = advanced.snapshot
    const shutOff = shutOffIn(machine, after)
    // What a source does while it is fed is no decay.
    series = withReading(series, machine, event, at, after).filter(({ source }) => shutOff.has(source.id))
    const now = machine.sources.filter((source) => isLetOut(machine, source, before, after))
    letOut = [...letOut, ...now.map(({ id }) => ({ source: id, at }))].filter(({ source }) => shutOff.has(source))
    before = after
  }
  return series.map((one) => ({
    ...one,
    letOutAt: letOut.filter(({ source }) => source === one.source.id).map(({ at }) => at)
  }))
}

interface LetOut {
  readonly source: MachineSource['id']
  readonly at: string
}

function shutOffIn(machine: Machine, { ledger }: Snapshot): ReadonlySet<MachineSource['id']> {
  return new Set(statuses(machine, ledger).flatMap(({ source, isolated }) => (isolated ? [source] : [])))
}

type ReadingInput = Extract<Input, { readonly kind: 'reading' }>

function withReading(
  series: readonly DecaySeries[],
  machine: Machine,
  event: Recorded['event'],
  at: string,
  after: Snapshot
): readonly DecaySeries[] {
  const input = inputOf(machine, event)
  if (input === null || (event.kind !== 'reading' && event.kind !== 'proven-again') || event.value === null)
    return series
  const reading: TakenReading = {
    at,
    typed: event.typed,
    value: Math.abs(event.value),
    // What is proven again is refused where it lies outside.
    inside: event.kind === 'proven-again' || after.progress.readings[input.id]?.inside !== false
  }
  const known = series.find(({ source, label }) => source.id === input.source && label === input.label)
  if (known === undefined) {
    const begun = newSeries(machine, input, reading)
    return begun === null ? series : [...series, begun]
  }
  // Two at one moment are one: the later counts.
  const earlier = known.readings.filter((taken) => Date.parse(taken.at) < Date.parse(at))
  return series.map((one) => (one === known ? { ...one, readings: [...earlier, reading] } : one))
}

function inputOf(machine: Machine, event: Recorded['event']): ReadingInput | null {
  if (event.kind === 'proven-again') return readingOf(machine, event.source)
  if (event.kind !== 'reading') return null
  const input = stateOf(machine, event.state).inputs.find(({ id }) => id === event.input)
  return input?.kind === 'reading' && input.source !== null ? input : null
}

function newSeries(machine: Machine, { source: id, label, unit }: ReadingInput, reading: TakenReading) {
  const source = machine.sources.find((candidate) => candidate.id === id)
  const dimension = dimensionOf(unit)
  const siUnit = dimension === undefined ? undefined : siUnits[dimension]
  if (source === undefined || siUnit === undefined || !convert(0, unit, siUnit).ok) return null
  return { source, label, unit, siUnit, readings: [reading], letOutAt: [] }
}

const siUnits: Readonly<Partial<Record<Dimension, string>>> = {
  voltage: 'V',
  current: 'A',
  pressure: 'Pa',
  temperature: 'K',
  'angular-speed': 'rad/s'
}

/**
 * A charge comes back a little after it was shorted, not after it bled away by itself: for a capacitor or a magnet it
 * takes a short or an earth put on, or a relieve step that names a tool that is no instrument.
 */
function isLetOut(machine: Machine, source: MachineSource, before: Snapshot, after: Snapshot): boolean {
  const shorted = machine.restraints.some(
    ({ id, kind, holds }) =>
      (kind === 'short' || kind === 'earth') &&
      holds.includes(source.id) &&
      before.ledger.restraints[id] !== 'on' &&
      after.ledger.restraints[id] === 'on'
  )
  if (shorted) return true
  const relieved = before.ledger.stores[source.id] === 'held' && after.ledger.stores[source.id] === 'gone'
  if (!relieved) return false
  if (source.kind !== 'capacitor' && source.kind !== 'magnet') return true
  const state = stateOf(machine, before.state)
  const tools = machine.items.filter(({ kind, measures }) => kind === 'tool' && measures === null)
  return state.kind === 'relieve' && tools.some(({ id }) => state.with.includes(id))
}
