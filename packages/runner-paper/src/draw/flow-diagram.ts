import type { Block, FlowRow } from '../blocks/block.js'
import { say } from '../text/say.js'
import { flowLanes } from './flow-lanes.js'
import { drawFlowNode, nodeSize } from './flow-node.js'
import type { Paint, Pen } from './pen.js'
import { stepAnchor } from './row-slabs.js'
import { type Setting, setLines } from './setting.js'
import { type Flow, flow, type Slab } from './slab.js'
import { columnOf, leading, type } from './style.js'
import { type Tag, tag } from './tag.js'

type FlowBlock = Extract<Block, { kind: 'flow' }>

const heights: Readonly<Record<FlowRow['kind'], number>> = { heading: 15, node: 13, exit: 10.5 }
const laneWidth = 8
/** Under a part of the map. */
const partGap = 6
/** Beyond so many, lines run on top of each other; the words beside each say where it leads. */
const mostLanes = 8
const sizes = { heading: 9, node: 8, exit: 7.5 } as const
const line: Paint = { stroke: '#000000', weight: 0.8 }

/** The map of the procedure as vector drawings, each as much of it as fits on a page, parted at sections where that can be. */
export function flowDiagram(block: FlowBlock, setting: Setting): Flow {
  const { page } = setting
  const node = tag('Sect', null)
  const told = setLines(say(block.tell), columnOf(page), type.small, setting)
  const intro: Slab = {
    height: told.length * leading(type.small) + 4,
    draw: (pen, x, y) => pen.under(tag('P', node), () => pen.lines(told, x, y, type.small))
  }
  const room = page.height - page.top - page.bottom - intro.height - 40
  const cut = (first: number): Flow => {
    const parts = partsOf(block.rows, room, first).map((rows, index) => partSlab(rows, block, index, node, setting))
    return flow([intro, ...parts], { before: 2, head: 2 })
  }
  return { ...cut(room), refit: (rest) => cut(rest - intro.height - partGap) }
}

/** Rows that fit under each other in so much room, in the first part in `first`. A section that fits on a part is not cut. */
function partsOf(rows: readonly FlowRow[], room: number, first: number): readonly (readonly FlowRow[])[] {
  const sections: FlowRow[][] = []
  for (const row of rows) {
    const last = sections.at(-1)
    // Headings that follow each other open one section.
    const opens = row.kind === 'heading' && last?.at(-1)?.kind !== 'heading'
    if (last === undefined || opens) sections.push([row])
    else last.push(row)
  }
  const parts: FlowRow[][] = []
  for (const section of sections) {
    const part = parts.at(-1)
    if (part !== undefined && heightOf(part) + heightOf(section) <= (parts.length === 1 ? first : room)) {
      part.push(...section)
      continue
    }
    for (const piece of piecesOf(section, room)) parts.push([...piece])
  }
  return parts
}

/** A step and its exits stay together. */
function piecesOf(section: readonly FlowRow[], room: number): readonly (readonly FlowRow[])[] {
  const pieces: FlowRow[][] = [[]]
  section.forEach((row, index) => {
    const end = section.findIndex((each, at) => at > index && each.kind !== 'exit')
    const group = row.kind === 'exit' ? [row] : section.slice(index, end === -1 ? section.length : end)
    const piece = pieces.at(-1) ?? []
    if (row.kind !== 'exit' && piece.length > 0 && heightOf(piece) + heightOf(group) > room) pieces.push([row])
    else piece.push(row)
  })
  return pieces
}

function heightOf(rows: readonly FlowRow[]): number {
  return rows.reduce((sum, row) => sum + heights[row.kind], 0)
}

/** What of a row stands where, measured from the left edge of the map. */
interface SetRow {
  readonly row: FlowRow
  /** Its upper edge. */
  readonly y: number
  readonly middle: number
  readonly text: string
  readonly start: number
  readonly end: number
}

function partSlab(rows: readonly FlowRow[], block: FlowBlock, index: number, node: Tag, setting: Setting): Slab {
  const width = columnOf(setting.page)
  const tops: number[] = []
  let height = 0
  for (const row of rows) {
    tops.push(height)
    height += heights[row.kind]
  }
  const middles = new Map(
    rows.flatMap((row, at) => (row.kind === 'node' ? [[row.number, (tops[at] ?? 0) + heights.node / 2] as const] : []))
  )
  const jumps = rows.flatMap((row, at) => {
    const to = row.kind === 'exit' && !row.next && row.to !== null ? middles.get(row.to) : undefined
    return to === undefined ? [] : [{ at, from: (tops[at] ?? 0) + heights.exit / 2, to }]
  })
  const [on, back] = [jumps.filter(({ from, to }) => to > from), jumps.filter(({ from, to }) => to <= from)]
  const lanes = { on: flowLanes(on), back: flowLanes(back) }
  const used = (each: readonly number[]): number => Math.min(mostLanes, Math.max(0, ...each.map((lane) => lane + 1)))
  const left = 6 + used(lanes.back) * laneWidth
  const right = width - 8 - used(lanes.on) * laneWidth
  const set = rows.map((row, at) => setRow(row, tops[at] ?? 0, left, right, setting))
  const ends = new Map(set.flatMap(({ row, end }) => (row.kind === 'node' ? [[row.number, end] as const] : [])))
  return {
    height: height + partGap,
    draw: (pen, x, y) => {
      // The turns of the whole map are told once, with its first part.
      const alt = index === 0 ? block.alternate : partAlternate(rows)
      pen.under(tag('Figure', node, { alt, bbox: [x, y, x + width, y + height] }), () => {
        for (const row of set) drawRow(pen, row, x, y, left, setting)
        drawFalls(pen, set, x + left + nodeSize.width / 2, y)
        on.forEach(({ at, from, to }, index) => {
          const row = rows[at]
          const target = row?.kind === 'exit' && row.to !== null ? (ends.get(row.to) ?? right) : right
          const lane = x + right + 4 + Math.min(lanes.on[index] ?? 0, mostLanes - 1) * laneWidth
          drawTurn(pen, x + (set[at]?.end ?? right) + 4, lane, y + from, y + to, x + target + 5)
        })
        back.forEach(({ at, from, to }, index) => {
          const lane = x + left - 6 - Math.min(lanes.back[index] ?? 0, mostLanes - 1) * laneWidth
          drawTurn(pen, x + (set[at]?.start ?? left) - 3, lane, y + from, y + to, x + left - 1)
        })
      })
      for (const { row, y: top, text } of set) {
        const to = row.kind === 'node' ? row.number : row.kind === 'exit' ? row.to : null
        if (to === null) continue
        const box = { x: x + left, y: y + top, width: right - left, height: heights[row.kind] }
        pen.link(node, stepAnchor(to), row.kind === 'node' ? `${to}. ${row.title}` : text, box, () => {})
      }
    }
  }
}

function setRow(row: FlowRow, y: number, left: number, right: number, setting: Setting): SetRow {
  const middle = y + heights[row.kind] / 2
  const measured = (text: string, start: number, size: number): SetRow => ({
    row,
    y,
    middle,
    text,
    start,
    end: start + setting.metrics.width(text, 'regular', size)
  })
  switch (row.kind) {
    case 'heading':
      // In the column of the words: the line down from step to step must not run through them.
      return measured(row.text, left + nodeSize.width + 7, sizes.heading)
    case 'node': {
      const start = left + nodeSize.width + 7
      const rail = row.rail === '' ? '' : ` (${row.rail})`
      return measured(clip(`${row.title}${rail}`, right - start - 12, sizes.node, setting), start, sizes.node)
    }
    case 'exit': {
      const start = left + nodeSize.width + 14
      const to = row.to === null ? setting.catalog.form.offSheet : setting.catalog.tells.step(row.to)
      const room = right - start - 12 - setting.metrics.width(` → ${to}`, 'regular', sizes.exit)
      const words = clip(row.text, room, sizes.exit, setting)
      return measured(words === '' ? `→ ${to}` : `${words} → ${to}`, start, sizes.exit)
    }
  }
}

function partAlternate(rows: readonly FlowRow[]): string {
  return rows.flatMap((row) => (row.kind === 'node' ? [`${row.number}. ${row.title}`] : [])).join('; ')
}

function drawRow(
  pen: Pen,
  { row, text, start, y }: SetRow,
  x: number,
  top: number,
  left: number,
  setting: Setting
): void {
  switch (row.kind) {
    case 'heading':
      pen.label(`${text} `, x + start, top + y + 2.5, sizes.heading, 'bold')
      return
    case 'node':
      drawFlowNode(pen, row, x + left, top + y + (heights.node - nodeSize.height) / 2, setting)
      pen.label(`${text} `, x + start, top + y + 1.6, sizes.node)
      return
    case 'exit':
      pen.label(`${text} `, x + start, top + y + 0.7, sizes.exit)
      return
  }
}

/** The line from a step to the one below it, where one simply goes on or an answer leads there. */
function drawFalls(pen: Pen, set: readonly SetRow[], x: number, y: number): void {
  set.forEach(({ row, middle }, index) => {
    const leads = (row.kind === 'node' && row.falls) || (row.kind === 'exit' && row.next)
    const next = leads ? set.slice(index + 1).find((each) => each.row.kind === 'node') : undefined
    if (next === undefined) return
    const end = y + next.middle - nodeSize.height / 2
    const down = row.kind === 'node' ? y + middle + nodeSize.height / 2 : y + middle
    const from = x - nodeSize.width / 2 + nodeSize.width + 11
    pen.path(
      row.kind === 'exit'
        ? [
            [from, down],
            [x, down],
            [x, end]
          ]
        : [
            [x, down],
            [x, end]
          ],
      line
    )
    // From one step straight to the next a head would cover both.
    if (end - down > 6) drawArrow(pen, x, end, 0, 1)
  })
}

/** From an answer out to its lane, along it, and in to the step that it leads to. */
function drawTurn(pen: Pen, start: number, lane: number, from: number, to: number, end: number): void {
  pen.path(
    [
      [start, from],
      [lane, from],
      [lane, to],
      [end, to]
    ],
    line
  )
  drawArrow(pen, end, to, lane > end ? -1 : 1, 0)
}

function drawArrow(pen: Pen, x: number, y: number, dx: number, dy: number): void {
  const [along, across] = [4, 2.2]
  pen.path(
    [
      [x, y],
      [x - dx * along - dy * across, y - dy * along - dx * across],
      [x - dx * along + dy * across, y - dy * along + dx * across]
    ],
    { fill: '#000000', closed: true }
  )
}

/** One line; what is too long for it ends in an ellipsis. */
function clip(text: string, room: number, size: number, setting: Setting): string {
  if (setting.metrics.width(text, 'regular', size) <= room) return text
  const [short] = setLines(say(text), room - size, size, setting)
  return `${short?.segments.map((segment) => segment.text).join('') ?? ''}…`
}
