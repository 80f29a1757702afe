import type { FieldKind, FormField, SheetPartName } from './form-field.js'

/** A column to write in: its key in the field's name, what belongs in it, and what stands over it. */
export interface WritingColumn {
  readonly key: string
  readonly kind: FieldKind
  readonly head: string
}

/**
 * The fields of a table that belongs to the sheet as a whole: `#part.1.row-column`. A column that is printed is null, and a
 * row is named by its key, or by its number where there is none.
 */
export function tableFields(
  part: SheetPartName,
  columns: readonly (WritingColumn | null)[],
  rows: readonly { readonly key: string; readonly tip: string }[]
): readonly (readonly (FormField | null)[])[] {
  return rows.map(({ key, tip }) =>
    columns.map((column) =>
      column === null
        ? null
        : {
            owner: part,
            step: null,
            kind: column.kind,
            input: `${key}-${column.key}`,
            tip: `${tip}. ${column.head}`
          }
    )
  )
}

/** Rows that are known by their number alone. */
export function numberedRows(title: string, count: number): readonly { readonly key: string; readonly tip: string }[] {
  return Array.from({ length: count }, (_, index) => ({ key: String(index + 1), tip: `${title}, ${index + 1}` }))
}
