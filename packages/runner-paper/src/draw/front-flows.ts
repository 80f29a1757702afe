import type { Block, LegendShape, Tick } from '../blocks/block.js'
import { say, stress } from '../text/say.js'
import { drawRail } from './card-frame.js'
import { blankGap, blankHeight, blanksWidth, boxSize, drawBlanks, drawTicks } from './form-parts.js'
import type { Pen } from './pen.js'
import { drawPointer } from './row-slabs.js'
import { type Setting, setLines } from './setting.js'
import { type Flow, flow, type Slab } from './slab.js'
import { columnOf, grey, leading, type } from './style.js'
import { tag } from './tag.js'

type Of<Kind extends Block['kind']> = Extract<Block, { kind: Kind }>

/** Framed lines under a heading: the cautions. */
export function panelFlow(block: Of<'panel'>, setting: Setting): Flow {
  const width = columnOf(setting.page)
  const node = tag('Sect', null, { title: block.heading })
  const list = tag('L', node)
  const heading = setLines(stress(block.heading), width - 16, type.table, setting, 'bold')
  const lines = block.lines.map((runs) => setLines(runs, width - 28, type.table, setting))
  const height = (heading.length + lines.reduce((sum, each) => sum + each.length, 0)) * leading(type.table) + 9
  const slab: Slab = {
    height: height + 4,
    draw: (pen, x, y) => {
      pen.decor(() => pen.rectangle(x, y, width, height, { stroke: '#000000', weight: 1.5 }))
      pen.under(tag('P', node), () => pen.lines(heading, x + 8, y + 3, type.table))
      let down = y + 3 + heading.length * leading(type.table)
      for (const each of lines) {
        const item = tag('LI', list)
        pen.under(tag('Lbl', item), () => pen.label('– ', x + 8, down, type.table))
        pen.under(tag('LBody', item), () => pen.lines(each, x + 20, down, type.table))
        down += each.length * leading(type.table)
      }
    }
  }
  return flow([slab], { before: 4 })
}

/** Boxes with a text each, in two columns under a small heading. */
export function ticksFlow(block: Of<'ticks'>, setting: Setting): Flow {
  const width = columnOf(setting.page)
  const column = width / 2
  const node = tag('Sect', null, { title: block.heading })
  const list = tag('L', node)
  const cells = block.items.map((item) => tickCell(item, column - boxSize - 14, setting))
  const heading = setLines(stress(block.heading), width, type.table, setting, 'bold')
  const slabs: Slab[] = [
    {
      height: leading(type.table) + 2,
      draw: (pen, x, y) => pen.under(tag('P', node), () => pen.lines(heading, x, y, type.table))
    }
  ]
  for (let at = 0; at < cells.length; at += 2) {
    const row = cells.slice(at, at + 2)
    slabs.push({
      height: Math.max(...row.map(({ height }) => height)),
      draw: (pen, x, y) =>
        row.forEach(({ lines, blanks, field }, index) => {
          const item = tag('LI', list)
          const body = tag('LBody', item)
          const left = x + index * column + boxSize + 5
          drawTicks(pen, 'box', field, 1, x + index * column, y + 1, tag('Lbl', item))
          pen.under(body, () => pen.lines(lines, left, y + 1, type.table))
          if (blanks.length === 0) return
          const under = y + 3 + lines.length * leading(type.table)
          drawBlanks(pen, blanks, 1, left - blankGap + blanksWidth(blanks), under, tag('P', body))
        })
    })
  }
  return flow(slabs, { before: 2, head: 2, whole: 0.5 })
}

function tickCell({ text, blanks, field }: Tick, width: number, setting: Setting) {
  const lines = setLines(text, width, type.table, setting)
  const room = blanks.length === 0 ? 0 : blankHeight + 4
  return { lines, blanks, field, height: Math.max(boxSize + 3, lines.length * leading(type.table) + 3 + room) }
}

const shapeWidth = 46

/** What the shapes of the sheet mean, each drawn small beside its meaning. */
export function legendFlow(block: Of<'legend'>, setting: Setting): Flow {
  const width = columnOf(setting.page)
  const column = width / 2
  const node = tag('L', null)
  const cells = block.entries.map(({ shape, text }) => ({
    shape,
    lines: setLines(say(text), column - shapeWidth - 14, type.table, setting)
  }))
  const slabs: Slab[] = []
  for (let at = 0; at < cells.length; at += 2) {
    const row = cells.slice(at, at + 2)
    slabs.push({
      height: Math.max(19, ...row.map(({ lines }) => lines.length * leading(type.table) + 5)),
      draw: (pen, x, y) =>
        row.forEach(({ shape, lines }, index) => {
          const left = x + index * column
          drawShape(pen, shape, left, y)
          pen.under(tag('LBody', tag('LI', node)), () => pen.lines(lines, left + shapeWidth, y + 2, type.table))
        })
    })
  }
  return flow(slabs, { before: 2, head: slabs.length })
}

function drawShape(pen: Pen, shape: LegendShape, x: number, y: number): void {
  switch (shape) {
    case 'gate':
      pen.decor(() => {
        pen.rectangle(x, y + 1, 36, 5, { fill: '#000000' })
        for (const at of [x, x + 34]) pen.rectangle(at, y + 1, 2, 13, { fill: '#000000' })
        for (const at of [x, x + 29]) pen.rectangle(at, y + 13, 7, 2, { fill: '#000000' })
      })
      return
    case 'step':
      pen.decor(() =>
        pen.path(
          [
            [x, y + 12],
            [x + 36, y + 12]
          ],
          { stroke: grey.rule, weight: 0.75 }
        )
      )
      return
    case 'box':
      pen.decor(() => pen.rectangle(x + 12, y + 2, boxSize, boxSize, { stroke: '#000000', weight: 0.9 }))
      return
    case 'circle':
      pen.decor(() => pen.disc(x + 18, y + 7.5, boxSize / 2, { stroke: '#000000', weight: 0.9 }))
      return
    case 'rail':
      drawRail(pen, x + 18, y + 1, 14)
      return
    case 'way':
      drawPointer(pen, x, y + 2, 36, 12)
      return
  }
}
