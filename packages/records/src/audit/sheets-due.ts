import type { KnownSheet, SheetList } from '../sheets/sheets-of.js'
import type { SheetOut } from './report.js'
import { count, type Found } from './verdict.js'

const day = 86_400_000

export interface SheetsDue {
  readonly states: readonly SheetOut[]
  readonly found: readonly Found[]
  readonly checked: readonly string[]
}

/** Printed sheets that never came back, or of which only a part was entered. */
export function sheetsDue({ sheets, faults }: SheetList, at: string): SheetsDue {
  const states = sheets.flatMap((one) => outOf(one, at))
  const told = faults.map(
    ({ id, file, what, danger, mend }): Found => ({ id, weight: 'fault', seq: null, file, what, danger, mend })
  )
  return {
    states,
    found: [...told, ...states.map(outFound)],
    checked: [`${count(sheets.length, 'printed sheet')}, ${states.length} of them not entered to the end`]
  }
}

function outOf({ sheet, state }: KnownSheet, at: string): readonly SheetOut[] {
  if (state.kind === 'entered' || state.kind === 'void') return []
  const { serial, procedure, revision, printedAt, by = null } = sheet
  return [
    {
      serial,
      procedure,
      revision,
      printedAt,
      by,
      days: Math.max(0, Math.floor((Date.parse(at) - Date.parse(printedAt)) / day)),
      state: state.kind,
      run: state.kind === 'partly-entered' ? state.run : null
    }
  ]
}

function outFound({ serial, procedure, revision, printedAt, by, days, run }: SheetOut): Found {
  const sheet = `Sheet ${serial} of ${procedure}, revision ${revision}, printed ${printedAt}${by === null ? '' : ` by ${by}`}`
  if (run !== null) {
    return {
      id: 'sheet-partly-entered',
      weight: 'doubt',
      seq: null,
      file: `runs/${run}.jsonl`,
      what: `${sheet}, was entered in part, as run ${run}.`,
      danger: 'What stands on the rest of it is on no record.',
      mend: 'Have the rest entered with `enter --run`, or the run stopped.'
    }
  }
  return {
    id: 'sheet-out',
    weight: 'doubt',
    seq: null,
    file: 'sheets',
    what: `${sheet}, never came back; it is out for ${count(days, 'day')}.`,
    danger: 'Work may have been done by it, and locks may hang, of which nothing is on record.',
    mend: 'Find the sheet and have it entered; declare it void if nobody worked by it.'
  }
}
