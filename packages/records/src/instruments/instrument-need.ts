import { worstCaseVolts } from '@lockwright/energy'
import type { Input, Machine, MachineItem, MachineSource, SourceStatus, State } from '@lockwright/machine'
import { currentOf, heldIn, isElectricalKind, type Level, limitOf, measuresOf } from '@lockwright/proof'
import type { InstrumentRating } from './instrument.js'

/** An electrical circuit that the instrument is put to. */
export interface Circuit {
  readonly source: string
  readonly category: InstrumentRating['category']
  /** Worst case, volts. */
  readonly volts: number
  readonly current: 'ac' | 'dc'
}

/** The rating that the procedure writes for its own tester: none that is weaker takes its place. */
export interface DeclaredRating {
  /** Id of the tool. */
  readonly tool: string
  readonly category: InstrumentRating['category']
  readonly volts: number
  /** Null: both, alternating and direct. */
  readonly current: 'ac' | 'dc' | null
}

/** What a reading asks of the instrument that it is taken with. */
export interface InstrumentNeed {
  /** Whether the record has to say which instrument it was; a gauge built into the machine has no number here. */
  readonly named: boolean
  /** What it has to measure, any of these; null: the procedure does not say. */
  readonly measures: readonly string[] | null
  readonly circuits: readonly Circuit[]
  /** Each of these it has to reach as well, where it is put to live parts by its leads. */
  readonly ratings: readonly DeclaredRating[]
  /** What its range has to hold, each in SI. */
  readonly levels: readonly { readonly of: string; readonly level: Level }[]
  /** The procedure says that it has to be in calibration. */
  readonly calibrated: boolean
}

type SourceId = SourceStatus['source']
type ReadingInput = Extract<Input, { readonly kind: 'reading' }>

/** What the reading of this input asks for; null: the state has no such reading. */
export function instrumentNeed(machine: Machine, state: State, input: string): InstrumentNeed | null {
  const reading = readingIn(state, input)
  if (reading === null) return null
  switch (state.kind) {
    case 'prove':
      return reading.source === null ? null : proofNeed(machine, state.with, reading.source)
    case 'measure':
      return measureNeed(machine, state)
    default:
      return null
  }
}

/** What proving a source again after a break asks for: the same as where it is proven; null where it is proven by trial. */
export function provenAgainNeed(machine: Machine, source: SourceId): InstrumentNeed | null {
  for (const state of machine.states) {
    if (state.kind !== 'prove') continue
    const reading = state.inputs.find((one) => one.kind === 'reading' && one.source === source)
    if (reading !== undefined) return proofNeed(machine, state.with, source)
  }
  return null
}

/** The reading that a state asks for under this id. */
export function readingIn(state: State, input: string): ReadingInput | null {
  const found = state.inputs.find((one) => one.id === input)
  return found?.kind === 'reading' ? found : null
}

function proofNeed(machine: Machine, named: readonly string[], id: SourceId): InstrumentNeed {
  const source = sourceNamed(machine, id)
  const measures = source === null ? null : measuresOf(source.kind)
  const limit = source === null || isElectricalKind(source.kind) ? undefined : limitOf(source)
  const held = source === null || limit === undefined ? undefined : heldIn(source, limit)
  const items = instrumentsAmong(machine, named).filter(
    (item) => measures === null || measures.includes(item.measures ?? '')
  )
  const levels = [...(held === undefined ? [] : [held]), ...(limit === undefined ? [] : [limit])]
  return {
    named: true,
    measures,
    circuits: source === null ? [] : circuitsOf([source]),
    levels: levels.map((level) => ({ of: id, level })),
    ratings: ratingsOf(items),
    calibrated: items.some((item) => item.needsCalibration)
  }
}

function measureNeed(machine: Machine, state: Extract<State, { readonly kind: 'measure' }>): InstrumentNeed {
  const items = instrumentsAmong(machine, state.with)
  const near = state.near.flatMap((id) => sourceNamed(machine, id) ?? [])
  const circuits = circuitsOf(near)
  return {
    named: items.length > 0 || circuits.length > 0,
    measures: items.length === 0 ? null : items.flatMap(({ measures }) => (measures === null ? [] : [measures])),
    circuits,
    ratings: circuits.length === 0 ? [] : ratingsOf(items),
    levels: [],
    calibrated: items.some((item) => item.needsCalibration)
  }
}

function circuitsOf(sources: readonly MachineSource[]): readonly Circuit[] {
  return sources.flatMap((source): readonly Circuit[] => {
    const { voltage } = source.quantities
    if (!isElectricalKind(source.kind) || voltage === undefined) return []
    // Category III where nothing else is declared, as the obligation `tester-rated` has it.
    const category = source.category ?? 'III'
    return [{ source: source.id, category, volts: worstCaseVolts(voltage), current: currentOf(source) }]
  })
}

function ratingsOf(items: readonly MachineItem[]): readonly DeclaredRating[] {
  return items.flatMap(({ id, rated, category }): readonly DeclaredRating[] => {
    if (rated?.dimension !== 'voltage') return []
    // Category III where none is written, as for a circuit.
    return [{ tool: id, category: category ?? 'III', volts: rated.interval.high, current: rated.current ?? null }]
  })
}

function instrumentsAmong(machine: Machine, ids: readonly string[]): readonly MachineItem[] {
  return machine.items.filter((item) => item.measures !== null && ids.some((id) => id === item.id))
}

function sourceNamed(machine: Machine, id: string): MachineSource | null {
  return machine.sources.find((source) => source.id === id) ?? null
}
