import { convert, parseReading } from '@lockwright/energy'
import type { Input, MachineSource } from '@lockwright/machine'
import type { RunEvent } from '@lockwright/records'
import { type Interpreted, refuse, type Sitting } from './interpreted.js'
import { reasonIsOwed } from './live-reading.js'
import { instrumentInUse } from './with-instrument.js'

type ReadingInput = Extract<Input, { readonly kind: 'reading' }>

/** A value far above anything that the source can hold was more likely mistyped than read. */
const farAbove = 1.5
/** A measure's limits say less about what can be read. */
const farOutside = 10

/** A reading; where the one before it was live and nobody has said why, that comes first. */
export function interpretNextReading(line: string, sitting: Sitting, input: ReadingInput): Interpreted {
  const { snapshot, entries, desk } = sitting
  if (!reasonIsOwed(snapshot, entries, input)) return interpretReading(line, sitting, input)
  const typed = snapshot.progress.readings[input.id]?.typed ?? ''
  return refuse(
    `\`${line}\` was not taken: ${input.label} was out of limits, and nobody has said why.`,
    'Say first why; then measure again.',
    { ...desk, question: { kind: 'live-reason', input, typed } }
  )
}

/**
 * A reading with its unit. `again`: the surprising reading that was typed before; typed once more it counts.
 * A bare number is asked for again: 0.69 on a kilovolt range must not pass as 0.69 V.
 */
export function interpretReading(
  line: string,
  sitting: Sitting,
  input: ReadingInput,
  again: string | null = null
): Interpreted {
  const desk = { ...sitting.desk, question: null }
  if (input.unit === '') return unitless(line, sitting, input)
  const read = parseReading(line, input.unit, { decimal: decimalSign(sitting.machine.language) })
  if (!read.ok) return refuse(read.why, '', desk)
  if (!/[\p{L}°%]/u.test(line)) {
    return refuse(
      `\`${line}\` has no unit.`,
      `Type it with the unit that the instrument shows, such as \`${line} ${input.unit}\`.`,
      desk
    )
  }
  const why = again === line ? null : surprising(sitting, input, read.value, read.current)
  if (why !== null) {
    return { kind: 'desk', desk: { ...desk, question: { kind: 'surprise', typed: line, why: `\`${line}\`: ${why}` } } }
  }
  return recorded(sitting, input, read.value, line)
}

/** Languages of sheets whose decimals are printed behind a comma: there `1.480 rpm` may mean 1480, and is asked for again. */
const commaLanguages = ['de', 'es', 'fr']

function decimalSign(language: string): 'point' | 'comma' {
  const [primary = ''] = language.toLowerCase().split('-')
  return commaLanguages.includes(primary) ? 'comma' : 'point'
}

/** Where no unit can be given, the first number counts and all of it is kept as typed. */
function unitless(line: string, sitting: Sitting, input: ReadingInput): Interpreted {
  const number = /[-+−]?[\d.,]*\d/.exec(line)
  if (number === null) return refuse(`\`${line}\` holds no number.`, 'Type what the instrument shows.')
  // Percent stands for a bare number: the same marks are in doubt as in every other reading.
  const read = parseReading(number[0], '%', { decimal: decimalSign(sitting.machine.language) })
  return read.ok ? recorded(sitting, input, read.value, line) : refuse(read.why, '')
}

function recorded(sitting: Sitting, input: ReadingInput, value: number, typed: string): Interpreted {
  const { snapshot, person } = sitting
  const [again] = snapshot.recheck
  const instrument = instrumentInUse(sitting, input)
  const named = instrument === undefined ? {} : { instrument }
  const event: RunEvent =
    again === undefined
      ? { kind: 'reading', state: snapshot.state, input: input.id, value, typed, ...named, by: person }
      : { kind: 'proven-again', source: again, value, typed, ...named, by: person }
  return { kind: 'event', event, last: null, signer: null }
}

function surprising(
  { machine }: Sitting,
  input: ReadingInput,
  value: number,
  current: 'ac' | 'dc' | undefined
): string | null {
  const source = machine.sources.find(({ id }) => id === input.source)
  if (source === undefined) {
    const ends = [input.limits.min, input.limits.max].filter((end) => end !== null).map(Math.abs)
    const widest = Math.max(0, ...ends)
    return widest > 0 && Math.abs(value) > farOutside * widest ? 'that is far outside anything expected here.' : null
  }
  const declared = declaredCurrent(source)
  if (current !== undefined && declared !== undefined && current !== declared) {
    return `${source.id} is ${declared}, and ${current} was read.`
  }
  const worst = worstCase(source, input.unit)
  return worst !== null && Math.abs(value) > farAbove * worst
    ? `that is more than ${source.id} can hold (${Number(worst.toPrecision(4))} ${input.unit} at most).`
    : null
}

function declaredCurrent(source: MachineSource): 'ac' | 'dc' | undefined {
  return source.quantities['voltage']?.current
}

/** The upper end of what the source is declared to hold, in this unit; null where nothing declared has that unit. */
function worstCase(source: MachineSource, unit: string): number | null {
  for (const name of ['voltage', 'pressure', 'speed', 'temperature', 'deflection', 'height']) {
    const quantity = source.quantities[name]
    if (quantity === undefined) continue
    const converted = convert(quantity.value * (1 + quantity.tolerance), quantity.unit, unit)
    if (converted.ok) return Math.abs(converted.value)
  }
  return null
}
