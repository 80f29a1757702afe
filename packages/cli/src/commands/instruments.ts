import {
  type Accuracy,
  addInstrument,
  calibratedAt,
  calibrateInstrument,
  type Instrument,
  type Instruments,
  openSite,
  readAccuracy,
  readInstruments,
  readRange,
  readRating,
  systemClock,
  withdrawInstrument,
  withdrawnAt
} from '@lockwright/records'
import { fromRecords } from '../from-records.js'
import { sayJson, sayLine, sayNote } from '../say.js'
import { unlockRoot } from '../unlock-key.js'

interface RootFlags {
  readonly site: string
  readonly rootPassphraseFile?: string
}

export interface ListFlags {
  readonly site: string
  readonly on?: string
  readonly trusted?: string
  readonly format: 'text' | 'json'
}

export interface AddFlags extends RootFlags {
  readonly name: string
  readonly serial: string
  readonly measures: string
  readonly rated?: readonly string[]
  readonly range?: string
  readonly accuracy?: string
}

export interface CalibrateFlags extends RootFlags {
  readonly from?: string
  readonly until: string
  readonly certificate?: string
}

export interface WithdrawFlags extends RootFlags {
  readonly from?: string
  readonly why: string
}

export function list(flags: ListFlags): void {
  const instruments = fromRecords(readInstruments(fromRecords(openSite(flags.site)), flags.trusted))
  if (flags.format === 'json') sayJson(instruments)
  else if (instruments === null) sayLine('This site keeps no list of instruments: lockwright instruments add')
  else sayLine(listText(instruments, flags.on ?? today()))
}

export async function add(id: string, flags: AddFlags): Promise<void> {
  const site = fromRecords(openSite(flags.site))
  const instrument: Instrument = {
    id,
    serial: flags.serial,
    name: flags.name,
    measures: flags.measures,
    ratings: (flags.rated ?? []).map((text) => fromRecords(readRating(text))),
    range: flags.range === undefined ? null : fromRecords(readRange(flags.range)),
    accuracy: flags.accuracy === undefined ? null : fromRecords(readAccuracy(flags.accuracy)),
    calibrations: [],
    withdrawn: null
  }
  const root = await unlockRoot(site, flags)
  fromRecords(addInstrument({ site, instrument, root, clock: systemClock }))
  sayNote(`added ${id}, ${flags.name}`)
  if (instrument.measures === 'voltage' && instrument.ratings.length === 0) {
    sayNote('Warning: without --rated it counts as built for no circuit, and no reading of a voltage is taken with it.')
  }
}

export async function calibrate(id: string, flags: CalibrateFlags): Promise<void> {
  const site = fromRecords(openSite(flags.site))
  const root = await unlockRoot(site, flags)
  const { from = today(), until, certificate = null } = flags
  fromRecords(calibrateInstrument({ site, id, calibration: { from, until, certificate }, root, clock: systemClock }))
  sayNote(`${id} is in calibration from ${from} until ${until}`)
}

export async function withdraw(id: string, flags: WithdrawFlags): Promise<void> {
  const site = fromRecords(openSite(flags.site))
  const root = await unlockRoot(site, flags)
  const { from = today(), why } = flags
  fromRecords(withdrawInstrument({ site, id, from, why, root, clock: systemClock }))
  sayNote(`from ${from} on no reading is taken with ${id}; \`lockwright audit\` tells of every one since then`)
}

function today(): string {
  return systemClock.now().at.slice(0, 10)
}

function listText({ site, serial, signedAt, instruments }: Instruments, day: string): string {
  const head = `${site}: instruments, list ${serial}, signed ${signedAt}; as of ${day}`
  return [head, ...instruments.map((one) => instrumentText(one, day))].join('\n')
}

function instrumentText(one: Instrument, day: string): string {
  const ratings = one.ratings.map(({ category, upTo }) => `CAT ${category} ${upTo.written}`)
  const range = one.range === null ? [] : [`${one.range.low.written} to ${one.range.high.written}`]
  const accuracy = one.accuracy === null ? [] : [`± ${accuracyText(one.accuracy)}`]
  const built = [one.measures, ...ratings, ...range, ...accuracy].join(', ')
  const calibrations = one.calibrations.map(
    ({ from, until, certificate }) =>
      `\n    calibrated ${from} until ${until}${certificate === null ? '' : `, ${certificate}`}`
  )
  return `  ${one.id}  ${one.name}, no. ${one.serial}  (${stateText(one, day)})\n    ${built}${calibrations.join('')}`
}

function stateText(one: Instrument, day: string): string {
  if (one.withdrawn !== null && withdrawnAt(one, day)) {
    return `out of use from ${one.withdrawn.from}: ${one.withdrawn.why}`
  }
  if (one.calibrations.length === 0) return 'no calibration is kept'
  return calibratedAt(one, day) ? 'in calibration' : 'NOT IN CALIBRATION'
}

function accuracyText({ ofReading, ofRange, plus }: Accuracy): string {
  return [
    ...(ofReading === 0 ? [] : [`${ofReading} % of reading`]),
    ...(ofRange === 0 ? [] : [`${ofRange} % of range`]),
    ...(plus === null ? [] : [plus.written])
  ].join(' + ')
}
