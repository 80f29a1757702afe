import type { Input, Machine, Snapshot } from '@lockwright/machine'
import { askedNext } from './asked.js'
import type { Desk, Question } from './desk.js'
import { type Interpreted, refuse, type Sitting } from './interpreted.js'

type ReadingInput = Extract<Input, { readonly kind: 'reading' }>

/** An instrument of the site that fits a reading: rated for it and in calibration now. */
export interface OfferedInstrument {
  /** The number that stands on it. */
  readonly id: string
  readonly tell: string
}

/** What the site offers for a reading; null: the record need not say which instrument it was. */
export type OfferInstruments = (
  input: ReadingInput,
  /** Proven once more after a break, not the reading of the step. */
  again: boolean
) => readonly OfferedInstrument[] | null

/** Why an instrument of the site does not fit a reading, in sentences; null: nobody knows one of this number. */
export type UnfitInstrument = (input: ReadingInput, again: boolean, id: string) => string | null

/** The question that comes before a reading where the record has to say with which instrument it is taken. */
export function instrumentQuestion(
  machine: Machine,
  snapshot: Snapshot,
  desk: Desk,
  offer: OfferInstruments | undefined
): Extract<Question, { readonly kind: 'instrument' }> | null {
  if (offer === undefined || desk.question !== null) return null
  const input = readingAsked(machine, snapshot, desk)
  if (input === null || desk.withoutInstrument === input.id) return null
  const offered = offer(input, snapshot.recheck.length > 0)
  if (offered === null) return null
  const inUse = desk.instruments[input.unit]
  return offered.some(({ id }) => id === inUse) ? null : { kind: 'instrument', input, offered }
}

/** By number in the list, or by the number that stands on it. */
export function chooseInstrument(
  line: string,
  { desk, unfit, snapshot }: Sitting,
  { input, offered }: Extract<Question, { readonly kind: 'instrument' }>
): Interpreted {
  const chosen =
    offered.find(({ id }) => id.toLowerCase() === line.toLowerCase()) ??
    (/^\d+$/.test(line) ? offered[Number(line) - 1] : undefined)
  if (chosen !== undefined) return { kind: 'desk', desk: using(desk, input, chosen.id) }
  const ids = offered.map(({ id }) => id).join(', ')
  const why = unfit?.(input, snapshot.recheck.length > 0, line) ?? null
  return refuse(
    `\`${line}\` is no instrument of this site that fits here${why === null ? ': one that is rated for it and in calibration today.' : `. ${why}`}`,
    ids === '' ? 'Get one that fits on the list, or stop the work.' : `Those that fit are ${ids}.`
  )
}

/** `with ID`: another instrument from now on; alone, it is asked for. */
export function changeInstrument(rest: string, sitting: Sitting): Interpreted | undefined {
  const input = readingAsked(sitting.machine, sitting.snapshot, sitting.desk)
  if (input === null) return undefined
  const { [input.unit]: _, ...others } = sitting.desk.instruments
  const desk: Desk = { ...sitting.desk, instruments: others, withoutInstrument: null }
  const question = instrumentQuestion(sitting.machine, sitting.snapshot, desk, sitting.offer)
  if (question === null) return refuse('No instrument is asked for here.', 'Type the reading alone.')
  return rest === '' ? { kind: 'desk', desk } : chooseInstrument(rest, { ...sitting, desk }, question)
}

/** The instrument that a reading is taken with now; undefined where none was named, or the record need not name one. */
export function instrumentInUse({ desk, snapshot, offer }: Sitting, input: ReadingInput): string | undefined {
  const inUse = desk.instruments[input.unit]
  if (inUse === undefined || offer === undefined || desk.withoutInstrument === input.id) return undefined
  return offer(input, snapshot.recheck.length > 0) === null ? undefined : inUse
}

function using(desk: Desk, { unit }: ReadingInput, id: string): Desk {
  return { ...desk, question: null, instruments: { ...desk.instruments, [unit]: id } }
}

function readingAsked(machine: Machine, snapshot: Snapshot, desk: Desk): ReadingInput | null {
  const asked = askedNext(machine, snapshot, desk)
  return asked.kind === 'reading' || asked.kind === 'prove-again' ? asked.input : null
}
