import { fromSheetFileName } from '../sheets/sheet-record.js'

/** Of the paths of all records of sheets those whose sheet is still out. `entered`: serial numbers that runs name. */
export function sheetsOut(paths: readonly string[], entered: ReadonlySet<string>): readonly string[] {
  const records = paths.flatMap((path) => {
    const serial = fromSheetFileName(path.slice('sheets/'.length))?.serial
    return serial === undefined ? [] : [{ path, serial, isVoid: path.endsWith('.void.json') }]
  })
  const voids = new Set(records.flatMap(({ serial, isVoid }) => (isVoid ? [serial] : [])))
  return records.flatMap(({ path, serial, isVoid }) =>
    isVoid || voids.has(serial) || entered.has(serial) ? [] : [path]
  )
}

/** Serial numbers of the sheets that runs were entered from. */
export function enteredSheets(runs: readonly { readonly sheet: string | null }[]): ReadonlySet<string> {
  return new Set(runs.flatMap(({ sheet }) => (sheet === null ? [] : [sheet])))
}
