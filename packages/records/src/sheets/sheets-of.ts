import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { listRuns } from '../list-runs.js'
import type { RecordsFault } from '../result.js'
import type { RunSummary } from '../run-types.js'
import type { Site } from '../site.js'
import { sheetFiles, sheetsFolder } from './register-sheet.js'
import {
  hashOfRecord,
  type PrintedSheet,
  parseSheetRecord,
  type SheetRecord,
  sheetFileName,
  type VoidSheet
} from './sheet-record.js'

/** Where a sheet is. `since`: RFC 3339. */
export type SheetState =
  /** Printed, and never entered. */
  | { readonly kind: 'out'; readonly since: string }
  /** What stood on it was entered; the run is open, and the rest is still to come. */
  | { readonly kind: 'partly-entered'; readonly run: string; readonly since: string }
  | { readonly kind: 'entered'; readonly run: string; readonly since: string }
  | { readonly kind: 'void'; readonly reason: string; readonly since: string; readonly by: string | null }

export interface KnownSheet {
  readonly sheet: PrintedSheet
  readonly state: SheetState
  /** Every run that says it was entered from this sheet; more than one is a mistake or worse. */
  readonly runs: readonly string[]
}

export interface SheetList {
  /** In the order in which they were printed. */
  readonly sheets: readonly KnownSheet[]
  /** Records that were changed or taken away, and sheets that were entered twice. */
  readonly faults: readonly RecordsFault[]
}

/** What is asked of the runs. */
export type SheetRun = Pick<RunSummary, 'run' | 'sheet' | 'status' | 'openedAt' | 'lastAt' | 'file'>

/** The sheets of a site. `runs`: where the caller has them already; else every journal is read. */
export function sheetsOf(site: Site, runs: readonly SheetRun[] = listRuns(site).runs): SheetList {
  const folder = sheetsFolder(site)
  return readSheets(
    sheetFiles(site).map((name) => ({ name, file: join(folder, name), bytes: readFileSync(join(folder, name)) })),
    runs
  )
}

export interface SheetDocument {
  /** Without its folder. */
  readonly name: string
  /** For messages. */
  readonly file: string
  readonly bytes: Uint8Array
}

/** The same from documents, wherever a store keeps them. In the order of their numbers. */
export function readSheets(documents: readonly SheetDocument[], runs: readonly SheetRun[]): SheetList {
  const faults: RecordsFault[] = []
  const read: SheetRecord[] = []
  const hashes = new Map<number, Set<string>>()
  for (const { name, file, bytes } of documents) {
    const parsed = parseSheetRecord(bytes)
    if ('fault' in parsed || sheetFileName(parsed.sheet) !== name) {
      faults.push(damaged(file, 'fault' in parsed ? parsed.fault : 'it bears the name of another'))
      continue
    }
    const { number } = parsed.sheet
    hashes.set(number, (hashes.get(number) ?? new Set()).add(hashOfRecord(bytes)))
    read.push(parsed.sheet)
  }
  for (const one of read) {
    const before = hashes.get(one.number - 1)
    const fits = one.number === 1 ? one.prev === null : one.prev !== null && before?.has(one.prev) === true
    if (!fits) faults.push(brokenChain(documents, one))
  }
  const voids = new Map(read.flatMap((one) => (one.kind === 'void' ? [[one.serial as string, one]] : [])))
  const sheets = read.flatMap((one) => {
    if (one.kind === 'void') return []
    const entered = runs.filter(({ sheet }) => sheet === one.serial)
    if (entered.length > 1) faults.push(enteredTwice(one, entered))
    return [{ sheet: one, state: stateOf(one, voids.get(one.serial), entered), runs: entered.map(({ run }) => run) }]
  })
  return { sheets, faults }
}

/** A sheet that was entered counts as that, also where somebody declared it void. */
function stateOf(sheet: PrintedSheet, gone: VoidSheet | undefined, runs: readonly SheetRun[]): SheetState {
  const closed = runs.find(({ status }) => status === 'finished' || status === 'stopped')
  if (closed !== undefined) return { kind: 'entered', run: closed.run, since: closed.lastAt }
  const [open] = runs
  if (open !== undefined) return { kind: 'partly-entered', run: open.run, since: open.openedAt }
  if (gone === undefined) return { kind: 'out', since: sheet.printedAt }
  return { kind: 'void', reason: gone.reason, since: gone.at, by: gone.by ?? null }
}

function damaged(file: string, why: string): RecordsFault {
  return {
    id: 'sheet-damaged',
    file,
    line: null,
    what: `The record of a sheet is not what was written: ${why}.`,
    danger: 'Which sheet is out, and of which procedure, cannot be told.',
    mend: 'Put the file back from a copy.'
  }
}

function brokenChain(documents: readonly SheetDocument[], one: SheetRecord): RecordsFault {
  return {
    id: 'sheet-missing',
    file: documents.find(({ name }) => name === sheetFileName(one))?.file ?? '',
    line: null,
    what: `The record of sheet ${one.serial} (number ${one.number}) does not follow from the one before it: that was changed, or is gone.`,
    danger: 'A sheet may be out that nobody asks for any more.',
    mend: 'Compare `sheets/` with a copy, and ask who could write there.'
  }
}

function enteredTwice({ serial }: PrintedSheet, runs: readonly SheetRun[]): RecordsFault {
  return {
    id: 'sheet-entered-twice',
    file: runs.at(-1)?.file ?? '',
    line: null,
    what: `Sheet ${serial} was entered ${runs.length} times: as ${runs.map(({ run }) => run).join(', ')}.`,
    danger: 'Work that was done once is on record as if it had been done more often.',
    mend: 'Compare the runs with the paper, and note in the record of the inspection which one counts.'
  }
}
