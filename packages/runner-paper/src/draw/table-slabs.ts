import type { Runs } from '@lockwright/language'
import type { Cell } from '../blocks/block.js'
import type { FormField } from '../form/form-field.js'
import type { Line } from '../text/break-lines.js'
import { type Setting, setLines } from './setting.js'
import type { Slab } from './slab.js'
import { grey, leading, type } from './style.js'
import { type Tag, tag } from './tag.js'

export interface TableSetting {
  readonly columns: readonly { readonly head: string; readonly share: number }[]
  /** In place of the columns' plain heads. */
  readonly heads?: readonly Runs[]
  readonly rows: readonly (readonly Cell[])[]
  readonly writing: boolean
  readonly fields?: readonly (readonly (FormField | null)[])[]
}

const pad = { x: 4, y: 3 }
const writingHeight = 22
const linesAStrip = 30

/** A ruled table as a head and rows. A row that is longer than a page is cut into several. */
export function tableSlabs(
  table: TableSetting,
  width: number,
  setting: Setting,
  node: Tag
): { readonly head: Slab; readonly rows: readonly Slab[] } {
  const total = table.columns.reduce((sum, { share }) => sum + share, 0)
  const widths = table.columns.map(({ share }) => (share / total) * width)
  const parent = tag('Table', node)
  const heads = table.heads ?? table.columns.map(({ head }): Runs => [{ kind: 'strong', text: head }])
  const head = rowSlab(
    heads.map((runs) => [runs]),
    widths,
    0,
    setting,
    tag('TR', tag('THead', parent)),
    'TH'
  )
  const body = tag('TBody', parent)
  return {
    head: head[0] ?? { height: 0, draw: () => {} },
    rows: table.rows.flatMap((row, index) =>
      rowSlab(row, widths, table.writing ? writingHeight : 0, setting, tag('TR', body), 'TD', table.fields?.[index])
    )
  }
}

function rowSlab(
  cells: readonly Cell[],
  widths: readonly number[],
  least: number,
  setting: Setting,
  node: Tag,
  kind: 'TH' | 'TD',
  fields: readonly (FormField | null)[] = []
): readonly Slab[] {
  const set = widths.map((wide, index): readonly Line[] =>
    (cells[index] ?? []).flatMap((runs) =>
      setLines(runs, wide - 2 * pad.x, type.table, setting, kind === 'TH' ? 'bold' : 'regular')
    )
  )
  const nodes = widths.map(() => tag(kind, node, kind === 'TH' ? { scope: 'Column' } : {}))
  const longest = Math.max(1, ...set.map((lines) => lines.length))
  const slabs: Slab[] = []
  for (let at = 0; at < longest; at += linesAStrip) {
    const strip = set.map((lines) => lines.slice(at, at + linesAStrip))
    const deep = Math.max(1, ...strip.map((lines) => lines.length))
    const height = Math.max(least, deep * leading(type.table) + 2 * pad.y)
    slabs.push({
      height,
      draw: (pen, x, y) => drawRow(pen, x, y, height, strip, widths, nodes, kind, at === 0 ? fields : [])
    })
  }
  return slabs
}

function drawRow(
  pen: Parameters<Slab['draw']>[0],
  x: number,
  y: number,
  height: number,
  cells: readonly (readonly Line[])[],
  widths: readonly number[],
  nodes: readonly Tag[],
  kind: 'TH' | 'TD',
  fields: readonly (FormField | null)[]
): void {
  const lefts = widths.map((_, index) => x + widths.slice(0, index).reduce((sum, wide) => sum + wide, 0))
  pen.decor(() => {
    if (kind === 'TH')
      pen.rectangle(
        x,
        y,
        widths.reduce((sum, wide) => sum + wide, 0),
        height,
        { fill: grey.fill }
      )
    widths.forEach((wide, index) => {
      pen.rectangle(lefts[index] ?? x, y, wide, height, { stroke: '#000000', weight: 0.5 })
    })
  })
  cells.forEach((lines, index) => {
    const node = nodes[index]
    if (node === undefined) return
    // An empty cell is still a cell: without it the columns of the structure would shift.
    const left = lefts[index] ?? x
    pen.under(node, () => pen.lines(lines, left + pad.x, y + pad.y - 1, type.table))
    const box = { x: left + 1.5, y: y + 1.5, width: (widths[index] ?? 0) - 3, height: height - 3 }
    pen.field(node, fields[index] ?? undefined, box)
  })
}
