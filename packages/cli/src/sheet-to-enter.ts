import { digestOf } from '@lockwright/machine'
import type { ProvedMachine } from '@lockwright/proof'
import { type PrintedSheet, parseSerial, type Site, sheetForEntry, sheetsOf } from '@lockwright/records'
import { fromRecords } from './from-records.js'
import type { ReadForm } from './read-filled-form.js'
import { CannotRun } from './read-input.js'
import { sayNote } from './say.js'

export interface SheetAsked {
  readonly site: Site
  readonly machine: ProvedMachine
  readonly form: ReadForm | null
  readonly run?: string
  /** Serial number as it was typed. */
  readonly sheet?: string
}

/** The sheet that is entered, by --sheet and by what the PDF says of itself; null: it has no serial number, or none was given. */
export function sheetToEnter({ form, machine, run, sheet: typed, site }: SheetAsked): PrintedSheet | null {
  const printed = form?.serial ?? null
  if (typed !== undefined && printed !== null && fromRecords(parseSerial(typed)) !== printed) {
    throw new CannotRun(
      `the PDF is that of sheet ${printed}, and --sheet says ${fromRecords(parseSerial(typed))}. One would count as come back that is still out, and this one could be entered twice. Leave --sheet out, or give the PDF of that sheet.`
    )
  }
  const serial = typed ?? printed
  if (serial === null) {
    tellSheetsOut(site, machine, run)
    return null
  }
  if (form !== null && printed === null)
    sayNote('The PDF does not say its own serial number: compare --sheet with the number on its pages.')
  const found = fromRecords(sheetForEntry(site, serial, digestOf(machine)))
  if (found.run !== null && found.run !== run) {
    throw new CannotRun(
      `sheet ${found.sheet.serial} was entered in part as run \`${found.run}\`; go on with that: --run ${found.run}`
    )
  }
  if (found.run === null && run !== undefined) {
    throw new CannotRun(`run \`${run}\` was not entered from sheet ${found.sheet.serial}; leave one of the two out.`)
  }
  return found.sheet
}

function tellSheetsOut(site: Site, machine: ProvedMachine, run: string | undefined): void {
  const out = sheetsOf(site).sheets.filter(
    ({ sheet, state }) => state.kind === 'out' && sheet.machine === digestOf(machine)
  )
  if (out.length === 0 || run !== undefined) return
  const serials = out.map(({ sheet }) => sheet.serial).join(', ')
  sayNote(`Sheets of this procedure are out (${serials}); without --sheet none of them counts as come back.`)
}
