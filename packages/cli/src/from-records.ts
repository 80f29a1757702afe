import type { RecordsResult } from '@lockwright/records'
import { CannotRun } from './read-input.js'

/** The value, or a `CannotRun` that names every fault, why it matters and what to do about it. */
export function fromRecords<Value>(result: RecordsResult<Value>): Value {
  if (result.ok) return result.value
  const faults = result.faults.map(({ file, line, what, danger, mend }) => {
    const place = file === '' ? '' : line === null ? `${file}: ` : `${file}:${line}: `
    return `${place}${what}\n  Why it matters: ${danger}\n  What to do: ${mend}`
  })
  throw new CannotRun(faults.join('\n'))
}
