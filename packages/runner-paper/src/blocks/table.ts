import type { FormField } from '../form/form-field.js'
import type { Cell, TableBlock } from './block.js'

/** A table of columns with their share of the width each; `writing` makes its rows tall enough to write in. */
export function table(
  columns: readonly (readonly [string, number])[],
  rows: readonly (readonly Cell[])[],
  writing = false,
  fields?: readonly (readonly (FormField | null)[])[]
): TableBlock {
  return {
    kind: 'table',
    columns: columns.map(([head, share]) => ({ head, share })),
    rows,
    writing,
    ...(fields === undefined ? {} : { fields })
  }
}
