import type { Content } from '@lockwright/language'
import type { ReadingCell, Row } from '../blocks/block.js'
import { stress } from '../text/say.js'
import { contentSlabs } from './content-slabs.js'
import { blanksHeight, blanksWidth, boxSize, drawBlank, drawBlanks, drawTicks, ticksWidth } from './form-parts.js'
import type { Pen } from './pen.js'
import { indented, lineSlabs, type Setting, setLines } from './setting.js'
import type { Slab } from './slab.js'
import { leading, type } from './style.js'
import { type Tag, tag } from './tag.js'

/** A row of a step as strips of the given width. What is ticked or chosen is an item of the list `node`. */
export function rowSlabs(row: Row, times: number, width: number, setting: Setting, node: Tag): readonly Slab[] {
  switch (row.kind) {
    case 'content':
      return contentSlabs(row.content, width, setting, node)
    case 'remark':
      return lineSlabs(setLines(row.text, width, type.small, setting), type.small, tag('P', node), 2)
    case 'entry':
      return entrySlabs(row, times, width, setting, node)
    case 'readings':
      return readingSlabs(row, width, setting, node)
    case 'way':
      return waySlabs(row, times, width, setting, node)
  }
}

function entrySlabs(
  row: Extract<Row, { kind: 'entry' }>,
  times: number,
  width: number,
  setting: Setting,
  node: Tag
): readonly Slab[] {
  const item = tag('LI', node)
  const body = tag('LBody', item)
  const lead = row.mark === 'none' ? 0 : ticksWidth(times)
  const right = blanksWidth(row.blanks)
  const least = row.blanks.length === 0 ? boxSize + 4 : blanksHeight(times) + 4
  return withLead(
    row.content,
    lead,
    width - lead - right - 4,
    least,
    setting,
    body,
    (pen, x, y) => {
      const { mark } = row
      if (mark !== 'none') drawTicks(pen, mark, row.field, times, x, y + 0.5, tag('Lbl', item))
    },
    (pen, x, y) => {
      if (row.blanks.length > 0) drawBlanks(pen, row.blanks, times, x + width, y, tag('P', body))
    }
  )
}

/** Content with something drawn at its left before it, and something at its right after it, on its first strip. */
function withLead(
  content: readonly Content[],
  lead: number,
  width: number,
  least: number,
  setting: Setting,
  node: Tag,
  before: Slab['draw'],
  behind: Slab['draw']
): readonly Slab[] {
  const [first, ...rest] = contentSlabs(content, width, setting, node).map((slab) => indented(slab, lead))
  return [
    {
      height: Math.max(least, first?.height ?? 0),
      draw: (pen, x, y) => {
        before(pen, x, y)
        first?.draw(pen, x, y)
        behind(pen, x, y)
      }
    },
    ...rest
  ]
}

/** Readings in as many columns as they fit in; their blanks stand under each other. */
function readingSlabs(
  row: Extract<Row, { kind: 'readings' }>,
  width: number,
  setting: Setting,
  node: Tag
): readonly Slab[] {
  const shape = readingShape(row.cells, width, setting)
  const { columns } = shape
  const list = tag('L', node)
  const slabs: Slab[] =
    row.caption === ''
      ? []
      : [...lineSlabs(setLines(stress(row.caption), width, type.body, setting), type.body, tag('P', node), 1)]
  for (let at = 0; at < row.cells.length; at += columns) {
    const cells = row.cells.slice(at, at + columns).map((cell) => readingCell(cell, shape, setting, tag('LI', list)))
    const strip: Slab = {
      height: Math.max(...cells.map(({ height }) => height)),
      draw: (pen, x, y) => cells.forEach((cell, index) => cell.draw(pen, x + (index * width) / columns, y))
    }
    const caption = at === 0 ? slabs.pop() : undefined
    slabs.push(caption === undefined ? strip : stacked(caption, strip))
  }
  return slabs
}

function stacked(upper: Slab, lower: Slab): Slab {
  return {
    height: upper.height + lower.height,
    draw: (pen, x, y) => {
      upper.draw(pen, x, y)
      lower.draw(pen, x, y + upper.height)
    }
  }
}

/** About 7 mm: enough to write a number in. */
const readingHeight = 20

interface ReadingShape {
  readonly columns: number
  readonly label: number
  readonly blank: number
  readonly limit: number
}

/** The widths of label, blank and limit that suit all the readings, and how many such columns there is room for. */
function readingShape(cells: readonly ReadingCell[], width: number, setting: Setting): ReadingShape {
  const times = Math.max(...cells.map((cell) => cell.times))
  const widest = (texts: readonly string[], size: number, face: 'regular' | 'bold'): number =>
    Math.max(...texts.map((text) => setting.metrics.width(text, face, size)))
  const labels =
    widest(
      cells.map(({ label }) => label),
      type.body,
      'regular'
    ) + 6
  const limits =
    widest(
      cells.map(({ limit }) => limit),
      type.small,
      'bold'
    ) + 12
  // Short labels share a width, so that the blanks of one source stand under those of the next.
  const label = Math.min(Math.max(78, labels), width * 0.36)
  const limit = Math.min(limits, width * 0.3)
  const blank = cells.length < 3 ? 66 : 54
  const room = label + times * (blank + 4) + limit
  return { columns: Math.max(1, Math.min(cells.length, 3, Math.floor(width / room))), label, blank, limit }
}

function readingCell(
  { label, unit, limit, times, field }: ReadingCell,
  shape: ReadingShape,
  setting: Setting,
  node: Tag
): Slab {
  const named = setLines([{ kind: 'text', text: label }], shape.label - 4, type.body, setting)
  const limited = setLines(stress(limit), shape.limit - 4, type.small, setting)
  const tall = Math.max(readingHeight, named.length * leading(type.body), limited.length * leading(type.small)) + 3
  const middle = (lines: number, size: number): number => Math.max(0, (readingHeight - lines * leading(size)) / 2)
  const body = tag('LBody', node)
  return {
    height: tall,
    draw: (pen, x, y) => {
      pen.under(body, () => pen.lines(named, x, y + middle(named.length, type.body), type.body))
      for (let time = 1; time <= times; time += 1) {
        const left = x + shape.label + (time - 1) * (shape.blank + 4)
        const across = setting.metrics.width(unit, 'regular', type.small)
        drawBlank(pen, left, y, shape.blank, readingHeight)
        pen.under(body, () => {
          if (times > 1) pen.label(` ${time}.`, left, y + 1, type.tiny)
          pen.label(` ${unit} `, left + shape.blank - across - 5, y + readingHeight - type.small - 4, type.small)
        })
        const top = times > 1 ? 6 : 2
        const box = { x: left + 1, y: y + top, width: shape.blank - across - 6, height: readingHeight - top - 1 }
        pen.field(body, field, box, time, times)
      }
      const after = x + shape.label + times * (shape.blank + 4)
      pen.under(body, () => pen.lines(limited, after + 1, y + middle(limited.length, type.small), type.small))
    }
  }
}

const goPad = 5

/** The name of the place where a step begins. */
export function stepAnchor(number: number): string {
  return `step-${number}`
}

function waySlabs(
  row: Extract<Row, { kind: 'way' }>,
  times: number,
  width: number,
  setting: Setting,
  node: Tag
): readonly Slab[] {
  const item = tag('LI', node)
  const body = tag('LBody', item)
  const lead = row.mark === 'none' ? 0 : ticksWidth(times)
  const goLines = setLines(stress(row.go), 150, type.small, setting, 'bold')
  const goWidth = row.go === '' ? 0 : Math.max(...goLines.map((line) => line.width)) + 2 * goPad + 8
  const goHeight = goLines.length * leading(type.small) + 5
  const content: readonly Content[] = [{ kind: 'paragraph', runs: row.text }]
  const own = withLead(
    row.text.length === 0 ? [] : content,
    lead,
    width - lead - goWidth - 6,
    Math.max(boxSize, row.go === '' ? 0 : goHeight) + 4,
    setting,
    body,
    (pen, x, y) => {
      const { mark } = row
      if (mark !== 'none') drawTicks(pen, mark, row.field, times, x, y + 0.5, tag('Lbl', item))
    },
    (pen, x, y) => {
      if (row.go === '') return
      const left = x + width - goWidth
      drawPointer(pen, left, y, goWidth, goHeight)
      const draw = (): void => pen.lines(goLines, left + goPad, y + 1.5, type.small)
      const box = { x: left, y, width: goWidth, height: goHeight }
      if (row.to === undefined) pen.under(tag('P', body), draw)
      else pen.link(tag('P', body), stepAnchor(row.to), row.go, box, draw)
    }
  )
  return [...own, ...contentSlabs(row.says, width - lead, setting, body).map((slab) => indented(slab, lead))]
}

/** The outline of a sign that points to the right. */
export function drawPointer(pen: Pen, x: number, y: number, width: number, height: number): void {
  const tip = x + width
  pen.decor(() =>
    pen.path(
      [
        [x, y],
        [tip - 8, y],
        [tip, y + height / 2],
        [tip - 8, y + height],
        [x, y + height]
      ],
      { stroke: '#000000', weight: 1.25, closed: true }
    )
  )
}
