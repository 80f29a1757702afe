import { bad, good, type RecordsResult } from '../result.js'
import type { Site } from '../site.js'
import { noSuchSheet } from './register-sheet.js'
import { parseSerial } from './serial.js'
import type { PrintedSheet } from './sheet-record.js'
import { sheetsOf } from './sheets-of.js'

export interface SheetForEntry {
  readonly sheet: PrintedSheet
  /** The open run that a part of it was entered as; null: nothing of it is on record. */
  readonly run: string | null
}

/** The sheet that somebody wants to enter, if it is one of this machine (its digest) and not entered or void already. */
export function sheetForEntry(site: Site, typed: string, machine: string): RecordsResult<SheetForEntry> {
  const serial = parseSerial(typed)
  if (!serial.ok) return serial
  const found = sheetsOf(site).sheets.find(({ sheet }) => sheet.serial === serial.value)
  if (found === undefined) return noSuchSheet(site, serial.value)
  const { sheet, state } = found
  if (sheet.machine !== machine) return ofAnother(sheet)
  switch (state.kind) {
    case 'out':
      return good({ sheet, run: null })
    case 'partly-entered':
      return good({ sheet, run: state.run })
    case 'entered':
      return enteredBefore(sheet, state.run)
    case 'void':
      return isVoid(sheet, state.reason, state.since)
  }
}

function ofAnother({ serial, procedure, revision, machine }: PrintedSheet): RecordsResult<never> {
  return bad({
    id: 'sheet-of-another-revision',
    file: '',
    what: `Sheet ${serial} was printed from another text: ${procedure} revision ${revision}, digest ${machine.slice(0, 12)}…`,
    danger: 'Its answers would be put to steps that do not stand on it.',
    mend: 'Give the text of the procedure that was printed; the digest stands on the sheet.'
  })
}

function enteredBefore({ serial }: PrintedSheet, run: string): RecordsResult<never> {
  return bad({
    id: 'sheet-entered',
    file: '',
    what: `Sheet ${serial} was entered before, as run \`${run}\`, and that run is closed.`,
    danger: 'Work that was done once would be on record twice.',
    mend: 'Read the serial number again. If the sheet was copied and worked with twice, enter the copy without --sheet and say so in a note.'
  })
}

function isVoid({ serial }: PrintedSheet, reason: string, at: string): RecordsResult<never> {
  return bad({
    id: 'sheet-void',
    file: '',
    what: `Sheet ${serial} was declared void on ${at}: ${reason}`,
    danger: 'Somebody worked with a sheet that was not to be worked with.',
    mend: 'Find out why it was used. Enter it without --sheet and say in a note which sheet it was.'
  })
}
