import { convert, testerFits } from '@lockwright/energy'
import { shows } from '@lockwright/proof'
import { calibratedAt, type Instrument, type Instruments, instrumentOf, withdrawnAt } from './instrument.js'
import type { Circuit, DeclaredRating, InstrumentNeed } from './instrument-need.js'

/** What speaks against an instrument, in one place for the runner's refusal and for the audit. */
export interface InstrumentFault {
  readonly id:
    | 'instrument-not-named'
    | 'instrument-unknown'
    | 'instrument-withdrawn'
    | 'instrument-not-calibrated'
    | 'instrument-wrong-kind'
    | 'instrument-under-rated'
    | 'instrument-out-of-range'
  readonly why: string
  readonly danger: string
  readonly mend: string
}

/** A reading as far as its instrument is concerned. */
export interface TakenReading {
  /** As it was entered; undefined: the record names none. */
  readonly instrument: string | undefined
  readonly value: number
  /** Unit of the value; null where it is not known. */
  readonly unit: string | null
  /** RFC 3339; its day counts. */
  readonly at: string
}

/** Everything that speaks against the instrument of a reading; empty: nothing does. */
export function instrumentFaults(
  instruments: Instruments,
  need: InstrumentNeed | null,
  reading: TakenReading
): readonly InstrumentFault[] {
  if (reading.instrument === undefined) return need?.named === true ? [notNamed] : []
  const instrument = instrumentOf(instruments, reading.instrument)
  if (instrument === null) return [unknown(reading.instrument)]
  return [
    ...outOfUse(instrument, reading.at),
    ...uncalibrated(instrument, reading.at),
    ...unfit(instrument, need, reading)
  ]
}

/** Those that nothing speaks against for such a reading on that day: what a runner offers to choose from. */
export function fittingInstruments(
  instruments: Instruments,
  need: InstrumentNeed | null,
  reading: Pick<TakenReading, 'unit' | 'at'>
): readonly Instrument[] {
  return instruments.instruments.filter(
    ({ id }) => instrumentFaults(instruments, need, { ...reading, instrument: id, value: 0 }).length === 0
  )
}

function outOfUse(instrument: Instrument, at: string): readonly InstrumentFault[] {
  const { id, withdrawn } = instrument
  if (withdrawn === null || !withdrawnAt(instrument, at)) return []
  return [
    {
      id: 'instrument-withdrawn',
      why: `\`${id}\` was taken out of use from ${withdrawn.from} on: ${withdrawn.why}.`,
      danger: 'What it shows may be wrong, and zero on a broken tester looks like zero on a dead machine.',
      mend: 'Take the reading with another instrument.'
    }
  ]
}

function uncalibrated(instrument: Instrument, at: string): readonly InstrumentFault[] {
  const { id, calibrations } = instrument
  if (calibratedAt(instrument, at)) return []
  const kept = calibrations.length > 0
  const last = calibrations.findLast(({ from }) => from <= at.slice(0, 10))
  const since = last === undefined ? (kept ? ' yet' : ' ever') : `: the last one ran out on ${last.until}`
  return [
    {
      id: 'instrument-not-calibrated',
      why: `\`${id}\` was not in calibration on ${at.slice(0, 10)}${since}.`,
      danger: 'Nobody knows by how much it is wrong.',
      mend: 'Take the reading with an instrument that is in calibration; if this one is, have it entered with `instruments calibrate`.'
    }
  ]
}

function unfit(
  instrument: Instrument,
  need: InstrumentNeed | null,
  { value, unit }: TakenReading
): readonly InstrumentFault[] {
  const { id, measures, range } = instrument
  const wanted = need?.measures ?? null
  if (wanted !== null && !wanted.includes(measures)) {
    return [
      wrongKind(`\`${id}\` measures ${measures}; this asks for an instrument that measures ${wanted.join(' or ')}.`)
    ]
  }
  const top = unit === null || range === null ? null : convert(range.high.value, range.high.unit, unit)
  if (top !== null && !top.ok) return [wrongKind(`\`${id}\` cannot show a value in ${unit}: ${top.why}`)]
  return [
    ...(touchesCircuit(measures) ? (need?.circuits ?? []).flatMap((circuit) => tooWeak(instrument, circuit)) : []),
    ...(touchesCircuit(measures) ? (need?.ratings ?? []).flatMap((rating) => belowDeclared(instrument, rating)) : []),
    ...(need?.levels ?? []).flatMap(({ of, level }) =>
      shows({ range }, level)
        ? []
        : [
            outOfRange(
              range === null
                ? `Nothing says what \`${id}\` can show, and \`${of}\` asks for ${level.written}.`
                : `\`${id}\` shows ${range.low.written} to ${range.high.written}; \`${of}\` asks for ${level.written}.`
            )
          ]
    ),
    ...(top !== null && value > top.value
      ? [outOfRange(`${value} ${unit} lies above ${range?.high.written}, the most that \`${id}\` can show.`)]
      : [])
  ]
}

/** An instrument that is put to live parts by its leads; a thermometer or a tachometer is not. */
function touchesCircuit(measures: string): boolean {
  return ['voltage', 'current', 'resistance', 'power', 'frequency'].includes(measures)
}

function tooWeak(instrument: Instrument, circuit: Circuit): readonly InstrumentFault[] {
  if (reaches(instrument, circuit, circuit.current)) return []
  const reach = `${Math.ceil(circuit.volts)} V ${circuit.current} in category ${circuit.category}`
  return [underRated(instrument, `\`${circuit.source}\` can reach ${reach}`, reach)]
}

/** The procedure was proved with its own tester: one that is weaker does not take its place. */
function belowDeclared(instrument: Instrument, rating: DeclaredRating): readonly InstrumentFault[] {
  const { tool, category, volts, current } = rating
  const currents = current === null ? (['ac', 'dc'] as const) : [current]
  if (currents.every((one) => reaches(instrument, rating, one))) return []
  const asked = `${volts} V${current === null ? '' : ` ${current}`} in category ${category}`
  return [underRated(instrument, `the procedure asks for \`${tool}\`, rated ${asked}`, asked)]
}

/** Two questions, never one: 1000 V of category III and 600 V of category IV are not ordered. */
function reaches(
  { ratings }: Instrument,
  circuit: { readonly category: Circuit['category']; readonly volts: number },
  current: 'ac' | 'dc'
): boolean {
  const fitting = ratings.filter(({ upTo }) => (upTo.current ?? current) === current)
  const parts = fitting.map(({ category, upTo }) => ({ category, volts: upTo.interval.low }))
  return testerFits([parts], circuit)
}

function underRated({ id, ratings }: Instrument, asked: string, reach: string): InstrumentFault {
  const stands = ratings.map(({ category, upTo }) => `CAT ${category} ${upTo.written}`).join(' and ')
  return {
    id: 'instrument-under-rated',
    why: `\`${id}\` is rated ${stands === '' ? 'for no circuit' : stands}; ${asked}.`,
    danger: 'A tester that is too weak for the circuit can burst in the hand at the first surge.',
    mend: `Take one that is rated for ${reach} or more.`
  }
}

const notNamed: InstrumentFault = {
  id: 'instrument-not-named',
  why: 'The record does not say with which instrument this was read.',
  danger: 'Whether it was in calibration and strong enough for the circuit cannot be told.',
  mend: 'Give the id that `instruments list` shows and that stands on the instrument.'
}

function unknown(id: string): InstrumentFault {
  return {
    id: 'instrument-unknown',
    why: `No instrument of this site has the id \`${id}\`.`,
    danger: 'Whether it was in calibration and strong enough for the circuit cannot be told.',
    mend: 'Read the id on the instrument again; one that is new here is entered with `instruments add`.'
  }
}

function wrongKind(why: string): InstrumentFault {
  return {
    id: 'instrument-wrong-kind',
    why,
    danger: 'It stands at zero whatever the machine holds.',
    mend: 'Take the instrument that the step names.'
  }
}

function outOfRange(why: string): InstrumentFault {
  return {
    id: 'instrument-out-of-range',
    why,
    danger: 'A gauge that cannot show so small or so large a value stands still whatever the machine holds.',
    mend: 'Take an instrument whose range holds both what can be there and the safe level.'
  }
}
