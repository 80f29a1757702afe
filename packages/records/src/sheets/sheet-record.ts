import { canonicalJson, readCanonical } from '../canonical-json.js'
import { digestPattern, sha256Hex } from '../digest.js'
import { instant, integer, list, matching, nullOr, oneOf, optional, record, type Shape, word } from '../shape.js'
import { parseSerial, type Serial } from './serial.js'

interface Registered {
  readonly format: 'lockwright-sheet/1'
  /** From 1, in the order in which this site folder registered. */
  readonly number: number
  /** SHA-256 of the record before it; null: it is the first. */
  readonly prev: string | null
  readonly serial: Serial
}

/** A sheet that was printed. */
export interface PrintedSheet extends Registered {
  readonly kind: 'printed'
  /** Digest of the machine. */
  readonly machine: string
  readonly procedure: string
  readonly revision: number
  /** Axis to value; an axis that is not named was printed with all its values. */
  readonly generations: Readonly<Record<string, string>>
  /** Languages it was printed in, such as `en`. */
  readonly languages: readonly string[]
  /** RFC 3339. */
  readonly printedAt: string
  /** Id of whoever printed it, where that was told. */
  readonly by?: string
}

/** A sheet that nobody is to work with: spoiled, lost, or printed in vain. */
export interface VoidSheet extends Registered {
  readonly kind: 'void'
  readonly reason: string
  /** RFC 3339. */
  readonly at: string
  readonly by?: string
}

export type SheetRecord = PrintedSheet | VoidSheet

const digest = matching(digestPattern, 'a SHA-256 digest')

const named: Shape = (value) => {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return 'is not a record'
  const wrong = Object.values(value).find((one) => word(one) !== null)
  return wrong === undefined ? null : 'holds a value that is no word'
}

const serial: Shape = (value) => {
  const parsed = typeof value === 'string' ? parseSerial(value) : null
  return parsed?.ok === true && parsed.value === value ? null : 'is not the serial number of a sheet'
}

const registered = {
  format: oneOf('lockwright-sheet/1'),
  number: integer(1),
  prev: nullOr(digest),
  serial,
  by: optional(word)
}

const shapes = {
  printed: record({
    ...registered,
    kind: oneOf('printed'),
    machine: digest,
    procedure: word,
    revision: integer(0),
    generations: named,
    languages: list(word),
    printedAt: instant
  }),
  void: record({ ...registered, kind: oneOf('void'), reason: word, at: instant })
} as const

/** Its one spelling. */
export function formatSheetRecord(one: SheetRecord): string {
  return canonicalJson(one)
}

/** The record of a file; else why it is none. */
export function parseSheetRecord(bytes: Uint8Array): { readonly sheet: SheetRecord } | { readonly fault: string } {
  const text = Buffer.from(bytes).toString('utf8')
  const read = readCanonical(text)
  if ('fault' in read) return read
  const kind = (read.value as { readonly kind?: unknown } | null)?.kind
  if (kind !== 'printed' && kind !== 'void') return { fault: 'it is no record of a sheet' }
  const fault = shapes[kind](read.value)
  return fault === null ? { sheet: read.value as SheetRecord } : { fault: `it ${fault}` }
}

/** How the record after this one names it. */
export function hashOfRecord(bytes: Uint8Array): string {
  return sha256Hex(bytes)
}

/** `000012-7M2-PSZ3.json`, and `000013-7M2-PSZ3.void.json` for one that is void. */
export function sheetFileName({ kind, number, serial: of }: SheetRecord): string {
  return `${String(number).padStart(6, '0')}-${of}${kind === 'void' ? '.void' : ''}.json`
}

/** Number and serial number of a file name; null: it is none of a sheet. */
export function fromSheetFileName(name: string): { readonly number: number; readonly serial: string } | null {
  const [, number, of] = /^(\d{6,15})-([0-9A-Z]{3}-[0-9A-Z]{4})(?:\.void)?\.json$/.exec(name) ?? []
  return number === undefined || of === undefined ? null : { number: Number(number), serial: of }
}
