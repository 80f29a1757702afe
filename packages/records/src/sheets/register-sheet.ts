import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { whereDiskHolds } from '../disk/disk-trouble.js'
import { makeFolderDurably, writeDurably } from '../durable-file.js'
import { lockInTurn } from '../log/lock-log.js'
import { bad, good, type RecordsResult } from '../result.js'
import { word } from '../shape.js'
import type { Site } from '../site.js'
import { newSerial, parseSerial } from './serial.js'
import {
  formatSheetRecord,
  fromSheetFileName,
  hashOfRecord,
  type PrintedSheet,
  parseSheetRecord,
  type SheetRecord,
  sheetFileName,
  type VoidSheet
} from './sheet-record.js'

/** What is known of a sheet before it is printed. */
export type SheetToPrint = Omit<PrintedSheet, 'format' | 'kind' | 'number' | 'prev' | 'serial'>

/** Where the records of the sheets of a site lie. */
export const sheetsFolder = (site: Site): string => join(site.folder, 'sheets')

/** Gives a sheet its serial number. It is on record when this returns, so print it afterwards. */
export function registerSheet(
  site: Site,
  sheet: SheetToPrint,
  random?: (amount: number) => Uint8Array
): RecordsResult<PrintedSheet> {
  return register(site, (names) => {
    const taken = new Set(names.map((name) => fromSheetFileName(name)?.serial))
    let serial = newSerial(random)
    while (taken.has(serial)) serial = newSerial(random)
    return good((place) => ({ ...place, ...sheet, serial, kind: 'printed' }))
  })
}

export interface VoidRequest {
  /** As it stands on the sheet. */
  readonly serial: string
  readonly reason: string
  /** RFC 3339. */
  readonly at: string
  readonly by?: string
}

/** Records that a sheet is not to be worked with, and why. Whether it was entered already is for the caller to ask. */
export function voidSheet(site: Site, { reason, serial: typed, ...rest }: VoidRequest): RecordsResult<VoidSheet> {
  const serial = parseSerial(typed)
  if (!serial.ok) return serial
  if (word(reason.trim()) !== null) return noReason()
  return register(site, (names) => {
    const records = names.filter((name) => fromSheetFileName(name)?.serial === serial.value)
    if (records.length === 0) return noSuchSheet(site, serial.value)
    if (records.some((name) => name.endsWith('.void.json'))) return isVoid(serial.value)
    return good((place) => ({ ...place, ...rest, reason: reason.trim(), serial: serial.value, kind: 'void' }))
  })
}

type Place = Pick<SheetRecord, 'format' | 'number' | 'prev'>

/** One at a time: each record names the one before it. */
function register<Record extends SheetRecord>(
  site: Site,
  make: (names: readonly string[]) => RecordsResult<(place: Place) => Record>
): RecordsResult<Record> {
  const folder = sheetsFolder(site)
  return whereDiskHolds(folder, () => {
    makeFolderDurably(folder)
    return lockInTurn(join(folder, 'register'), 'the register of sheets', () => {
      const names = sheetFiles(site)
      const made = make(names)
      if (!made.ok) return made
      const last = names.at(-1)
      const before = last === undefined ? null : readFileSync(join(folder, last))
      if (last !== undefined && before !== null && 'fault' in parseSheetRecord(before)) return lastDamaged(folder, last)
      const written = made.value({
        format: 'lockwright-sheet/1',
        number: (last === undefined ? 0 : (fromSheetFileName(last)?.number ?? 0)) + 1,
        prev: before === null ? null : hashOfRecord(before)
      })
      writeDurably(join(folder, sheetFileName(written)), formatSheetRecord(written))
      return good(written)
    })
  })
}

/** Names of the records, in the order of their numbers. */
export function sheetFiles(site: Site): readonly string[] {
  const folder = sheetsFolder(site)
  if (!existsSync(folder)) return []
  const numbered = readdirSync(folder).flatMap((name) => {
    const parts = fromSheetFileName(name)
    return parts === null ? [] : [{ name, number: parts.number }]
  })
  return numbered
    .toSorted((one, other) => one.number - other.number || (one.name < other.name ? -1 : 1))
    .map(({ name }) => name)
}

export function noSuchSheet(site: Site, serial: string): RecordsResult<never> {
  return bad({
    id: 'no-such-sheet',
    file: sheetsFolder(site),
    what: `No sheet with the serial number ${serial} was printed here.`,
    danger: 'It may be a sheet of another site, or one that was printed past the records.',
    mend: 'Look it up with `lockwright sheets`, or give the folder of the site that printed it.'
  })
}

function isVoid(serial: string): RecordsResult<never> {
  return bad({
    id: 'sheet-void',
    file: '',
    what: `Sheet ${serial} was declared void before.`,
    danger: 'The reason that stands would be covered by another.',
    mend: 'See `lockwright sheets` for when and why.'
  })
}

function noReason(): RecordsResult<never> {
  return bad({
    id: 'reason-needed',
    file: '',
    what: 'There is no reason why the sheet is void.',
    danger: 'Nobody could tell a spoiled sheet from one that was made to disappear.',
    mend: 'Say what became of the paper.'
  })
}

function lastDamaged(folder: string, name: string): RecordsResult<never> {
  return bad({
    id: 'sheet-damaged',
    file: join(folder, name),
    what: 'The last record of a sheet is not what was written.',
    danger: 'The next one would be chained to something that nobody wrote.',
    mend: 'Put the file back from a copy, then print again.'
  })
}
