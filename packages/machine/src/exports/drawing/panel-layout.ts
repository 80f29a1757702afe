import type { FlowExit, FlowNode, Panel } from './flow-of.js'
import { type Link, layeredLayout } from './layered-layout.js'
import { wrapText } from './measure-text.js'
import { boxOf, type NodeBox } from './node-box.js'

export const headingSize = 15
export const headingLine = 19
const inside = 16

/** A section with its steps in place, from its own left upper corner. */
export interface PlacedPanel {
  readonly panel: Panel
  readonly width: number
  readonly height: number
  readonly heading: readonly string[]
  readonly boxes: readonly { readonly box: NodeBox; readonly x: number; readonly y: number }[]
  readonly lines: readonly (readonly { readonly x: number; readonly y: number }[])[]
}

/** `entries`: for each step, the numbers of those that lead to it from another section or from further down. */
export function panelLayout(
  panel: Panel,
  entries: ReadonlyMap<number, readonly number[]>,
  sectionOf: (number: number) => string
): PlacedPanel {
  const { nodes } = panel
  const drawn = drawnIn(panel)
  const indices = new Map(nodes.map(({ number }, index) => [number, index]))
  const boxes = nodes.map((node) =>
    boxOf(node, {
      byLine: (exit) => drawn(node, exit),
      sectionOf: (number) => (indices.has(number) ? '' : sectionOf(number)),
      from: entries.get(node.number) ?? []
    })
  )
  const links = boxes.flatMap(({ ports }, from): Link[] =>
    ports.flatMap(({ exit, byLine, x }, index) => {
      const to = indices.get(exit.to)
      return byLine && to !== undefined ? [{ from, to, port: x, share: (index + 0.5) / ports.length }] : []
    })
  )
  const layout = layeredLayout(boxes, links)
  const width = Math.max(layout.width + 2 * inside, 300)
  const heading = wrapText(panel.title, width - 2 * inside, headingSize, 3)
  const top = inside + headingLine * heading.length
  const left = (width - layout.width) / 2
  const moved = ({ x, y }: { readonly x: number; readonly y: number }) => ({ x: x + left, y: y + top })
  return {
    panel,
    width,
    height: top + layout.height + inside,
    heading,
    boxes: boxes.map((box, index) => ({ box, ...moved(layout.places[index] ?? { x: 0, y: 0 }) })),
    lines: layout.lines.map((line, index) => {
      // A line arrives at the shape, below what is written above it.
      const target = boxes[links[index]?.to ?? -1]
      return line.map((corner, at) => {
        const point = moved(corner)
        return at === line.length - 1 ? { x: point.x, y: point.y + (target?.top ?? 0) } : point
      })
    })
  }
}

/** By step and way out: whether it is drawn as a line. */
export type Drawn = (node: FlowNode, exit: FlowExit) => boolean

/**
 * A line goes down to a later step of the same section, unless the way through the section leaves it in between: what
 * comes after copies made elsewhere is told by number, like every other way.
 */
export function drawnIn({ nodes }: Panel): Drawn {
  const inside = new Set(nodes.map(({ number }) => number))
  const forward = (node: FlowNode, exit: FlowExit): boolean => exit.to > node.number && inside.has(exit.to)
  const followed = new Set(
    nodes.flatMap((node) => node.exits.filter((exit) => forward(node, exit)).map(({ to }) => to))
  )
  const breaks = nodes.map(({ number }) => number).filter((number, index) => index > 0 && !followed.has(number))
  return (node, exit) =>
    !exit.late && forward(node, exit) && !breaks.some((number) => node.number < number && number < exit.to)
}
