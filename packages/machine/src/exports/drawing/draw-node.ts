import { xmlText } from '../xml.js'
import type { Role } from './flow-of.js'
import { factsLine, factsSize, type NodeBox, pillHeight, pillWidth, titleLine, titleSize } from './node-box.js'

const slant = 14
const cut = 9
/** Texts keep clear of slanted and round sides. */
const indents: Partial<Readonly<Record<Role, number>>> = { secures: 7, restores: 7, end: 7 }

/** One step at its place: shape, number, texts, answers, and the numbers of the steps that no line leads to. */
export function drawNode(box: NodeBox, x: number, y: number): readonly string[] {
  const { node, width, top, shapeHeight, title, facts, from, cellHeight, ports } = box
  const shapeTop = y + top
  const indent = indents[node.role] ?? 0
  const textX = x + box.badge + 9 + indent
  const firstLine = shapeTop + 9 + 12
  const factsTop = firstLine + titleLine * title.length - 2
  return [
    `<g id="step-${node.number}">`,
    ...(from === '' ? [] : [text(x + width / 2 + 8, y + 9, factsSize, from, 'class="quiet"')]),
    ...shapeOf(node.role, x, shapeTop, width, shapeHeight),
    text(x + 9 + indent, firstLine, titleSize, String(node.number), 'class="number"'),
    ...title.map((line, index) => text(textX, firstLine + titleLine * index, titleSize, line, '')),
    ...facts.map((line, index) => text(textX, factsTop + factsLine * index, factsSize, line, 'class="quiet"')),
    ...(cellHeight === 0 ? [] : cellsOf(box, x, shapeTop + shapeHeight - cellHeight)),
    ...ports.filter(({ byLine }) => !byLine).flatMap((port) => pill(port, x, shapeTop + shapeHeight)),
    '</g>'
  ]
}

function cellsOf({ ports, width, cellHeight }: NodeBox, x: number, y: number): readonly string[] {
  return [
    `<path class="thin" d="M${at(x, y)}h${round(width)}${ports
      .slice(1)
      .map((port) => `M${at(x + port.x - port.width / 2, y)}v${round(cellHeight)}`)
      .join('')}"/>`,
    ...ports.flatMap((port) =>
      port.lines.map((line, index) =>
        text(x + port.x, y + 15 + factsLine * index, factsSize + 0.5, line, 'text-anchor="middle"')
      )
    )
  ]
}

function pill(port: NodeBox['ports'][number], x: number, y: number): readonly string[] {
  const width = pillWidth(port)
  const left = x + port.x - width / 2
  return [
    `<a href="#step-${port.exit.to}">`,
    `<rect class="pill" x="${round(left)}" y="${round(y + 5)}" width="${round(width)}" height="${pillHeight}" rx="3"/>`,
    text(left + width / 2, y + 18, factsSize, port.leadsTo, 'text-anchor="middle"'),
    '</a>'
  ]
}

/** The shapes are ours. They tell what a step is for, and none of them stands for a kind of energy or of lock. */
export function shapeOf(role: Role, x: number, y: number, width: number, height: number): readonly string[] {
  const outline = (corners: readonly (readonly [number, number])[], kind = 'shape'): string =>
    `<polygon class="${kind}" points="${corners.map(([cornerX, cornerY]) => `${round(x + cornerX)},${round(y + cornerY)}`).join(' ')}"/>`
  const rectangle = (kind: string, by: number, radius: number): string =>
    `<rect class="${kind}" x="${round(x + by)}" y="${round(y + by)}" width="${round(width - 2 * by)}" height="${round(height - 2 * by)}" rx="${radius}"/>`
  switch (role) {
    case 'step':
      return [rectangle('shape', 0, 10)]
    case 'secures':
      return [
        outline([
          [0, height / 2],
          [slant, 0],
          [width - slant, 0],
          [width, height / 2],
          [width - slant, height],
          [slant, height]
        ])
      ]
    case 'verifies':
      return [rectangle('shape', 0, 0), rectangle('inner', 3.5, 0)]
    case 'restores':
      return [
        outline([
          [slant, 0],
          [width, 0],
          [width - slant, height],
          [0, height]
        ])
      ]
    case 'hands-on':
      return [
        rectangle('shape', 0, 0),
        `<rect class="bar" x="${round(x)}" y="${round(y)}" width="5" height="${round(height)}"/>`
      ]
    case 'choice':
      return [
        outline([
          [cut, 0],
          [width - cut, 0],
          [width, cut],
          [width, height],
          [0, height],
          [0, cut]
        ])
      ]
    case 'end':
      return [rectangle('shape', 0, Math.min(24, height / 2)), rectangle('inner', 3.5, Math.min(21, height / 2 - 3))]
    case 'passing':
      return [rectangle('loose', 0, 10)]
  }
}

export function text(x: number, y: number, size: number, words: string, attributes: string): string {
  return `<text x="${round(x)}" y="${round(y)}" font-size="${size}"${attributes === '' ? '' : ` ${attributes}`}>${xmlText(words)}</text>`
}

function at(x: number, y: number): string {
  return `${round(x)} ${round(y)}`
}

export function round(number: number): number {
  return Math.round(number * 10) / 10
}
