import type { Catalog } from '../catalog.js'
import type { FormField } from '../form/form-field.js'
import { numberedRows, tableFields, type WritingColumn } from '../form/table-fields.js'
import type { PrintOptions } from '../print-options.js'
import type { Sheet } from '../sheet/sheet.js'
import { paragraph, say } from '../text/say.js'
import type { Block, Cell } from './block.js'
import type { Names } from './names.js'
import { proofBlocks } from './proof-blocks.js'
import { table } from './table.js'

/** The last pages: sign-offs, room for deviations and notes, and what was checked. */
export function closingBlocks(sheet: Sheet, options: PrintOptions, names: Names, catalog: Catalog): readonly Block[] {
  return [
    ...signatureBlocks(sheet, names, catalog),
    ...writtenBlocks(catalog),
    ...proofBlocks(sheet, options, names, catalog)
  ]
}

/** A row for each sign-off step, then for the sheet as a whole. */
function signatureBlocks({ steps }: Sheet, names: Names, { parts, heads, closing }: Catalog): readonly Block[] {
  const signed = steps.flatMap(({ state, number }) =>
    state.kind === 'signoff'
      ? [{ state, number: String(number), meaning: state.meaning, role: names.role(state.role) }]
      : []
  )
  const whole = [
    { key: 'completed', meaning: closing.completed },
    { key: 'entered', meaning: closing.entered }
  ]
  const columns: readonly WritingColumn[] = [
    { key: 'name', kind: 'name', head: heads.name },
    { key: 'qualification', kind: 'text', head: heads.qualification },
    { key: 'signature', kind: 'signature', head: heads.signature },
    { key: 'date', kind: 'date', head: heads.date }
  ]
  const ofStep = signed.map(({ state, meaning }): readonly (FormField | null)[] => [
    null,
    null,
    ...columns.map(({ key, kind, head }) => ({
      owner: state.id,
      step: state.step,
      kind,
      input: `page-${key}`,
      tip: `${parts.signatures}, ${meaning}. ${head}`
    }))
  ])
  const ofSheet = tableFields(
    '#sheet',
    [null, null, ...columns],
    whole.map(({ key, meaning }) => ({ key, tip: `${parts.signatures}, ${meaning}` }))
  )
  const rows = [...signed, ...whole.map(({ meaning }) => ({ number: '', meaning, role: '' }))]
  return [
    { kind: 'heading', level: 2, text: parts.signatures, newPage: true },
    table(
      [
        [heads.step, 7],
        [heads.meaning, 30],
        [heads.name, 18],
        [heads.qualification, 16],
        [heads.signature, 15],
        [heads.date, 14]
      ],
      rows.map(({ number, meaning, role }) => [
        number === '' ? [] : [say(number)],
        [say(meaning)],
        [],
        role === '' ? [] : [say(role)],
        [],
        []
      ]),
      true,
      // The role is printed where a qualification would be written.
      [...ofStep.map((row) => row.map((field, index) => (index === 3 ? null : field))), ...ofSheet]
    )
  ]
}

const room = { deviations: 6, notes: 8 } as const

/** Room for what was done otherwise, and for what is worth telling. */
function writtenBlocks({ parts, heads, closing }: Catalog): readonly Block[] {
  const signed = heads.nameAndTime
  const columns = (what: string, last: string): readonly WritingColumn[] => [
    { key: 'step', kind: 'text', head: heads.step },
    { key: 'what', kind: 'text', head: what },
    { key: 'signed', kind: 'signature', head: last }
  ]
  const written = (part: '#deviations' | '#notes', title: string, what: string, last: string, count: number): Block =>
    table(
      [
        [heads.step, 9],
        [what, 60],
        [last, 31]
      ],
      Array.from({ length: count }, () => Array.from({ length: 3 }, (): Cell => [])),
      true,
      tableFields(part, columns(what, last), numberedRows(title, count))
    )
  return [
    { kind: 'heading', level: 2, text: parts.deviations },
    { kind: 'content', content: paragraph(say(closing.deviation)) },
    written('#deviations', parts.deviations, heads.deviation, heads.qualified, room.deviations),
    { kind: 'heading', level: 2, text: parts.notes },
    written('#notes', parts.notes, heads.note, signed, room.notes)
  ]
}
