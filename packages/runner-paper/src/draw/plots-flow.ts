import type { PlotMark, PlotUse } from '@lockwright/energy'
import type { Block, PlotBlock } from '../blocks/block.js'
import type { Paint, Pen } from './pen.js'
import { type Setting, setLines } from './setting.js'
import { type Flow, flow, type Slab } from './slab.js'
import { columnOf, grey, leading, type } from './style.js'
import { tag } from './tag.js'

const between = 14
const widest = 360

/** Told apart by weight and dash alone, so that a photocopy shows them as well. */
const paints: Readonly<Record<PlotUse, Paint>> = {
  axis: { stroke: '#000000', weight: 0.75 },
  grid: { stroke: '#BBBBBB', weight: 0.25 },
  slow: { stroke: '#000000', weight: 1.5 },
  fast: { stroke: '#000000', weight: 0.75, dash: 1 },
  safe: { stroke: '#000000', weight: 1, dash: 5 },
  wait: { stroke: '#000000', weight: 0.75, dash: 2.5 }
}
/** Size of the lettering in the units of a plot. */
const lettering = 11

/** Decay curves as vector drawings, each a figure with its alternate text and a caption under it. */
export function plotsFlow({ plots, across }: Extract<Block, { kind: 'plots' }>, setting: Setting): Flow {
  const column = columnOf(setting.page)
  const cell = across === 1 ? Math.min(column, widest) : (column - between) / 2
  const slabs: Slab[] = []
  for (let at = 0; at < plots.length; at += across) {
    slabs.push(rowSlab(plots.slice(at, at + across), cell, setting))
  }
  return flow(slabs, { before: 4 })
}

function rowSlab(plots: readonly PlotBlock[], cell: number, setting: Setting): Slab {
  const set = plots.map((block) => ({
    ...block,
    scale: cell / block.plot.width,
    lines: setLines(block.caption, cell, type.table, setting)
  }))
  const drawn = Math.max(...set.map(({ plot, scale }) => plot.height * scale))
  const told = Math.max(...set.map(({ lines }) => lines.length * leading(type.table)))
  return {
    height: drawn + told + 6,
    draw: (pen, x, y) =>
      set.forEach(({ plot, scale, lines, alternate }, index) => {
        const left = x + index * (cell + between)
        const node = tag('Sect', null)
        const bbox = [left, y, left + cell, y + plot.height * scale] as const
        pen.under(tag('Figure', node, { alt: alternate, bbox }), () => {
          for (const mark of plot.marks) drawMark(pen, mark, left, y, scale, setting)
        })
        pen.under(tag('P', node), () => pen.lines(lines, left, y + drawn + 1, type.table))
      })
  }
}

function drawMark(pen: Pen, mark: PlotMark, left: number, top: number, scale: number, { metrics }: Setting): void {
  const placed = (points: readonly { readonly x: number; readonly y: number }[]) =>
    points.map(({ x, y }) => [left + x * scale, top + y * scale] as const)
  switch (mark.kind) {
    case 'area':
      pen.path(placed(mark.points), { fill: grey.fill, closed: true })
      return
    case 'line':
      pen.path(placed(mark.points), paints[mark.use])
      return
    case 'text': {
      const size = lettering * scale
      const wide = metrics.width(mark.text, 'regular', size)
      const back = { start: 0, middle: wide / 2, end: wide }[mark.anchor]
      pen.label(mark.text, left + mark.at.x * scale - back, top + mark.at.y * scale - size, size)
      return
    }
  }
}
