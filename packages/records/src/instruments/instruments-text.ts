import type { KeyObject } from 'node:crypto'
import { parseQuantity, type Quantity } from '@lockwright/energy'
import { openDetached } from '../jws.js'
import { bad, good, type RecordsResult } from '../result.js'
import { personIdPattern } from '../roster.js'
import { date, instant, integer, list, matching, nullOr, oneOf, record, type Shape, text, word } from '../shape.js'
import { formatSignedYaml, readSignedBody, splitSignedYaml } from '../signed-yaml.js'
import type { Accuracy, Instrument, InstrumentRating, Instruments } from './instrument.js'

const percent: Shape = (value) =>
  typeof value === 'number' && value >= 0 && value <= 100 ? null : 'is not a percentage from 0 to 100'

const quantity: Shape = (value) => {
  if (typeof value !== 'string') return 'is not a quantity such as 1000 V'
  const read = parseQuantity(value)
  return read.ok ? null : `is no quantity: ${read.why}`
}

const voltage: Shape = (value) =>
  quantity(value) ?? (quantityOf(value as string).dimension === 'voltage' ? null : 'is not a voltage such as 1000 V')

const range: Shape = (value) => {
  const fault = record({ low: quantity, high: quantity })(value)
  if (fault !== null) return fault
  const { low, high } = value as { readonly low: string; readonly high: string }
  const [least, most] = [quantityOf(low), quantityOf(high)]
  return least.dimension === most.dimension && least.reference === most.reference && least.si < most.si
    ? null
    : `does not rise from ${low} to ${high}`
}

const fileShape = record({
  'lockwright-instruments': (value) => (value === 1 ? null : 'is not version 1'),
  site: text,
  serial: integer(1),
  'signed-at': instant,
  instruments: list(
    record({
      id: matching(personIdPattern, 'an id'),
      serial: word,
      name: word,
      measures: word,
      ratings: list(record({ category: oneOf('II', 'III', 'IV'), 'up-to': voltage })),
      range: nullOr(range),
      accuracy: nullOr(record({ 'of-reading': percent, 'of-range': percent, plus: nullOr(quantity) })),
      calibrations: list(record({ from: date, until: date, certificate: nullOr(word) })),
      withdrawn: nullOr(record({ from: date, why: word }))
    })
  )
})

type Written<Value> = Value extends Quantity ? string : Value
interface InstrumentInFile extends Omit<Instrument, 'ratings' | 'range' | 'accuracy'> {
  readonly ratings: readonly { readonly category: InstrumentRating['category']; readonly 'up-to': string }[]
  readonly range: { readonly low: string; readonly high: string } | null
  readonly accuracy: {
    readonly 'of-reading': number
    readonly 'of-range': number
    readonly plus: Written<Quantity> | null
  } | null
}
interface InstrumentsFile {
  readonly site: string
  readonly serial: number
  readonly 'signed-at': string
  readonly instruments: readonly InstrumentInFile[]
}

/** The text of `instruments.yaml`, signed as the roster is. */
export function formatInstruments(instruments: Instruments, root: KeyObject): string {
  return formatSignedYaml(
    'lockwright-instruments',
    {
      'lockwright-instruments': 1,
      site: instruments.site,
      serial: instruments.serial,
      'signed-at': instruments.signedAt,
      instruments: instruments.instruments.map((one) => ({
        id: one.id,
        serial: one.serial,
        name: one.name,
        measures: one.measures,
        ratings: one.ratings.map(({ category, upTo }) => ({ category, 'up-to': upTo.written })),
        range: one.range === null ? null : { low: one.range.low.written, high: one.range.high.written },
        accuracy: one.accuracy === null ? null : accuracyInFile(one.accuracy),
        calibrations: one.calibrations.map(({ from, until, certificate }) => ({ from, until, certificate })),
        withdrawn: one.withdrawn === null ? null : { from: one.withdrawn.from, why: one.withdrawn.why }
      }))
    },
    root
  )
}

function accuracyInFile({ ofReading, ofRange, plus }: Accuracy): InstrumentInFile['accuracy'] {
  return { 'of-reading': ofReading, 'of-range': ofRange, plus: plus?.written ?? null }
}

/** The instruments of an `instruments.yaml`, only if one of the given root keys (base64url) signed it. */
export function parseInstruments(
  bytes: Uint8Array,
  file: string,
  roots: readonly string[]
): RecordsResult<Instruments> {
  const split = splitSignedYaml(bytes)
  if (split === null) return unsound(file, 'It does not end in a signature.')
  const opened = openDetached('lockwright-instruments', split.body, split.signature, roots)
  if (!opened.ok) return unsound(file, `Its signature does not hold: ${opened.why}.`)
  const read = readSignedBody(split.body, fileShape)
  if ('fault' in read) return unsound(file, read.fault)
  const written = read.value as InstrumentsFile
  const twice = written.instruments.find(
    ({ id }, index) => written.instruments.findIndex((one) => one.id === id) !== index
  )
  if (twice !== undefined) return unsound(file, `It names \`${twice.id}\` twice.`)
  const instruments = written.instruments.map(instrumentIn)
  const empty = instruments.find(saysNothing)
  if (empty !== undefined) return unsound(file, `The accuracy of \`${empty.id}\` does not fit what it shows.`)
  return good({
    site: written.site,
    serial: written.serial,
    signedAt: written['signed-at'],
    instruments
  })
}

/** An accuracy in other units than the readings, or a share of a range that is not said, would make nothing doubtful. */
function saysNothing({ accuracy, range: shown, ratings }: Instrument): boolean {
  if (accuracy === null) return false
  const dimension = shown?.low.dimension ?? (ratings.length > 0 ? 'voltage' : null)
  const { plus, ofRange } = accuracy
  return (ofRange > 0 && shown === null) || (plus !== null && dimension !== null && plus.dimension !== dimension)
}

function instrumentIn({ ratings, range: shown, accuracy, ...one }: InstrumentInFile): Instrument {
  return {
    ...one,
    ratings: ratings.map((rating) => ({ category: rating.category, upTo: quantityOf(rating['up-to']) })),
    range: shown === null ? null : { low: quantityOf(shown.low), high: quantityOf(shown.high) },
    accuracy:
      accuracy === null
        ? null
        : {
            ofReading: accuracy['of-reading'],
            ofRange: accuracy['of-range'],
            plus: accuracy.plus === null ? null : quantityOf(accuracy.plus)
          }
  }
}

function quantityOf(written: string): Quantity {
  const read = parseQuantity(written)
  if (!read.ok) throw new Error(`${written} was found to be a quantity before`)
  return read.value
}

function unsound(file: string, why: string): RecordsResult<never> {
  return bad({
    id: 'instruments-unsound',
    file,
    what: `The list of instruments cannot be relied on. ${why}`,
    danger: 'A tester that is broken, out of calibration or too weak for the circuit could pass for a good one.',
    mend: 'Put back the copy that the holder of the root key signed, or have the list made and signed anew.'
  })
}
