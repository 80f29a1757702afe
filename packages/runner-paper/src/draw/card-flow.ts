import type { Blank, Card, Row } from '../blocks/block.js'
import { say, stress } from '../text/say.js'
import { barSlab, endSlab, framedSlab, gutter, innerPad, railed } from './card-frame.js'
import { contentSlabs } from './content-slabs.js'
import { blanksHeight, blanksWidth, drawBlanks } from './form-parts.js'
import { drawFork } from './marks.js'
import { noticeSlabs } from './notice-slabs.js'
import { rowSlabs, stepAnchor } from './row-slabs.js'
import { indented, type Setting, setLines } from './setting.js'
import { type Flow, flow, gap, heightOf, type Slab } from './slab.js'
import { columnOf, leading, type } from './style.js'
import { type Tag, tag } from './tag.js'

/** A step as strips: prose and notices, the bar of a gate, the title with its room for initials and time, the rows. */
export function cardFlow(card: Card, level: number, setting: Setting): Flow {
  const width = columnOf(setting.page)
  const inner = width - gutter - innerPad
  const node = tag('Sect', null, { title: `${card.number}. ${card.title}` })
  const before = [
    ...contentSlabs(card.intro, width, setting, node),
    ...card.notices.flatMap((notice) => noticeSlabs(notice, card.times, width, setting, node))
  ]
  const bar = barSlab(card, width, setting, node)
  const frame = (slab: Slab): Slab => framedSlab(slab, card, width)
  const { head, rest } = headSlab(card, level, setting, node)
  const lists = listsOf(node)
  const rows = rest
    .flatMap((row) => rowSlabs(row, card.times, inner, setting, lists(row)))
    .map((slab) => indented(slab, gutter))
  const framed = [...bar, head, ...rows].map(frame)
  const [first = gap(0), ...others] = [...before, ...framed]
  const slabs = [...[anchored(first, card), ...others].map((slab) => railed(slab, card)), endSlab(card, width)]
  const headed = before.length + bar.length + 1
  return flow(slabs, {
    before: 3,
    // What is proven is proven in one go: a gate is cut only where it takes most of a page.
    whole: card.shape === 'gate' ? 0.65 : 0.5,
    // The bar, the title and the first row: a gate is never parted from what it asks.
    head: headed + (rows.length > 0 ? 1 : 0),
    repeat: railed(frame(continuedSlab(card, width, setting, node)), card),
    repeatFrom: headed
  })
}

/** Whoever is sent to a step comes to what stands before it as well: its notices. */
function anchored(slab: Slab, { number }: Card): Slab {
  return {
    height: slab.height,
    draw: (pen, x, y) => {
      pen.anchor(stepAnchor(number), y)
      slab.draw(pen, x, y)
    }
  }
}

/** The title at the left, the room for initials and time at the right. The first rows stand beside that room as far as it reaches. */
function headSlab(
  card: Card,
  level: number,
  setting: Setting,
  node: Tag
): { readonly head: Slab; readonly rest: readonly Row[] } {
  const { catalog } = setting
  const width = columnOf(setting.page)
  const blanks: readonly Blank[] = [
    { label: catalog.heads.initials, size: 'short', ...(card.initials === undefined ? {} : { field: card.initials }) },
    { label: catalog.heads.time, size: 'short', ...(card.time === undefined ? {} : { field: card.time }) }
  ]
  const inner = width - gutter - innerPad - (card.signed ? blanksWidth(blanks) + 6 : 0)
  const title = setLines(stress(card.title), inner, type.step, setting, 'bold')
  const rail = card.rail === '' ? [] : setLines(stress(card.rail), inner - 8, type.small, setting)
  const railHeight = rail.length === 0 ? 0 : rail.length * leading(type.small) + 6
  const named = nameBeside(card, title, inner, setting)
  const titleHeight = title.length * leading(type.step) + (named.below ? leading(nameSize) : 0) + 2
  const signHeight = card.signed ? blanksHeight(card.times) : 0
  const { said, rest } = beside(card, inner, signHeight - railHeight - titleHeight, setting, node)
  const height = Math.max(top + railHeight + titleHeight + heightOf(said) + 1, top + signHeight + 4)
  const number = String(card.number)
  const size = number.length > 2 ? 10 : 13
  const numberWidth = setting.metrics.width(number, 'bold', size)
  const draw: Slab['draw'] = (pen, x, y) => {
    const left = x + gutter
    let down = y + top
    if (rail.length > 0) {
      const wide = Math.max(...rail.map((line) => line.width)) + 8
      pen.decor(() => pen.rectangle(left, down, wide, railHeight - 3, { stroke: '#000000', weight: 1 }))
      pen.under(tag('P', node), () => pen.lines(rail, left + 4, down + 1, type.small))
      down += railHeight
    }
    pen.bookmark(level - 1, `${card.number}. ${card.title}`, y)
    if (card.shape === 'choice') pen.decor(() => drawFork(pen, x + gutter - 8 - numberWidth - 14, down + 1))
    pen.under(tag(`H${Math.min(level, 6)}`, node), () => {
      pen.label(`${number} `, x + gutter - 8 - numberWidth, down + (type.step - size) * 0.8, size, 'bold')
      pen.lines(title, left, down, type.step)
    })
    if (card.name !== '')
      pen.under(tag('P', node), () =>
        pen.label(`${card.name} `, left + named.x, down + named.y, nameSize, 'regular', quiet)
      )
    down += titleHeight
    for (const slab of said) {
      slab.draw(pen, left, down)
      down += slab.height
    }
    if (card.signed) drawBlanks(pen, blanks, card.times, x + width - innerPad, y + top, tag('P', node))
  }
  return { head: { height, draw }, rest }
}

const nameSize = 7
const quiet = '#555555'

/** The step's name goes behind the last line of its title, or under it where there is no room. */
function nameBeside(card: Card, title: ReturnType<typeof setLines>, width: number, { metrics }: Setting) {
  const last = title.at(-1)?.width ?? 0
  const fits = last + 8 + metrics.width(card.name, 'regular', nameSize) <= width
  const lines = title.length * leading(type.step)
  return fits
    ? { below: false, x: last + 8, y: lines - leading(type.step) + type.step - nameSize }
    : { below: card.name !== '', x: 0, y: lines }
}

const top = 4
/** What is longer than about two lines is better set over the full width. */
const besideAtMost = 30

/** The remarks, and such rows after them as find room beside the initials. */
function beside(
  card: Card,
  width: number,
  room: number,
  setting: Setting,
  node: Tag
): { readonly said: readonly Slab[]; readonly rest: readonly Row[] } {
  const said: Slab[] = []
  const lists = listsOf(node)
  for (const [index, row] of card.rows.entries()) {
    const fits = row.kind === 'remark' || row.kind === 'content' || (row.kind === 'entry' && row.blanks.length === 0)
    if (!fits) return { said, rest: card.rows.slice(index) }
    const slabs = rowSlabs(row, card.times, width, setting, lists(row))
    const begins = heightOf(said) < room && heightOf(slabs) <= besideAtMost
    if (row.kind !== 'remark' && !begins) return { said, rest: card.rows.slice(index) }
    said.push(...slabs)
  }
  return { said, rest: [] }
}

/** Where a row belongs in the structure: rows to tick or choose that follow each other are one list. */
function listsOf(node: Tag): (row: Row) => Tag {
  let list: Tag | null = null
  return (row) => {
    if (row.kind !== 'entry' && row.kind !== 'way') {
      list = null
      return node
    }
    list ??= tag('L', node)
    return list
  }
}

/** Stands at the top of the next page where a step is longer than the room on this one. */
function continuedSlab(card: Card, width: number, setting: Setting, node: Tag): Slab {
  const text = `${card.number}. ${card.title} (${setting.catalog.continued})`
  const lines = setLines(say(text), width - gutter - innerPad, type.small, setting)
  const [bar = gap(0)] = barSlab(card, width, setting, null)
  return {
    height: bar.height + lines.length * leading(type.small) + 5,
    draw: (pen, x, y) => {
      bar.draw(pen, x, y)
      pen.under(tag('P', node), () => pen.lines(lines, x + gutter, y + bar.height + 2, type.small))
    }
  }
}
