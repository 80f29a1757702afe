import type { Machine } from '../../machine.js'
import { xmlAttribute, xmlText } from '../xml.js'
import { drawNode, round, shapeOf, text } from './draw-node.js'
import { type Flow, flowOf, type Role } from './flow-of.js'
import { wrapText } from './measure-text.js'
import { drawnIn, headingLine, headingSize, type PlacedPanel, panelLayout } from './panel-layout.js'

const margin = 28
const panelGap = 22
const columnGap = 30
const legendWidth = 168
const legendHeight = 34

const style = [
  'text{font-family:Helvetica,Arial,"Liberation Sans","DejaVu Sans",sans-serif;fill:#111}',
  '.quiet{fill:#444}',
  '.number,.heading{font-weight:bold}',
  '.panel{fill:#f4f4f4;stroke:#777}',
  '.copy{fill:#fff;stroke:#777;stroke-dasharray:7 4}',
  '.shape{fill:#fff;stroke:#111;stroke-width:1.3}',
  '.inner,.thin{fill:none;stroke:#111;stroke-width:.8}',
  '.loose{fill:none;stroke:#777;stroke-dasharray:2 3}',
  '.bar{fill:#111}',
  '.pill{fill:#fff;stroke:#777}',
  '.line{fill:none;stroke:#111;stroke-width:1.2;stroke-linejoin:round}'
].join('')

const legend: readonly (readonly [Role, string])[] = [
  ['secures', 'makes safe: lock, relieve, restrain'],
  ['verifies', 'makes sure: prove, try, inspect, sign'],
  ['hands-on', 'hands on the machine'],
  ['restores', 'brings back: remove, unlock, energize'],
  ['choice', 'the way on hangs on the answer'],
  ['step', 'other steps'],
  ['end', 'the end of a way'],
  ['passing', 'goes on by itself']
]

/**
 * The flow as a drawing: a frame for each section, broken where it is a copy, the steps numbered as they are read. A
 * line leads to a later step of the same section; other ways name the number of the step. The same machine gives the
 * same bytes.
 */
export function svgOf(machine: Machine): string {
  const flow = flowOf(machine)
  const entries = entriesOf(flow)
  const sections = new Map(
    flow.panels.flatMap(({ title, nodes }) => nodes.map(({ number }) => [number, title] as const))
  )
  const columns = inColumns(
    flow.panels.map((panel) => panelLayout(panel, entries, (number) => sections.get(number) ?? ''))
  )
  const columnWidths = columns.map((column) => Math.max(...column.map(({ width }) => width)))
  const width = Math.max(
    760,
    2 * margin + columnWidths.reduce((sum, one) => sum + one, 0) + columnGap * (columns.length - 1)
  )
  const head = headOf(machine, width - 2 * margin)
  const legendTop = margin + head.height
  const legendRows = Math.ceil(legend.length / Math.floor((width - 2 * margin) / (legendWidth + 12)))
  const top = legendTop + legendRows * (legendHeight + 10) + 18

  const drawn: string[] = []
  let x = margin
  let bottom = top
  columns.forEach((column, index) => {
    let y = top
    for (const placed of column) {
      drawn.push(...drawPanel(placed, x, y))
      y += placed.height + panelGap
    }
    bottom = Math.max(bottom, y - panelGap)
    x += (columnWidths[index] ?? 0) + columnGap
  })
  const height = bottom + margin
  const title = `${machine.procedure}, revision ${machine.revision}: ${machine.title}`
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${round(width)}" height="${round(height)}" viewBox="0 0 ${round(width)} ${round(height)}" xml:lang="${xmlAttribute(machine.language)}">`,
    `<title>${xmlText(title)}</title>`,
    `<style>${style}</style>`,
    '<defs><marker id="tip" viewBox="0 0 8 8" refX="7.5" refY="4" markerWidth="8" markerHeight="8" orient="auto"><path d="M0 .5L8 4L0 7.5z" fill="#111"/></marker></defs>',
    `<rect width="${round(width)}" height="${round(height)}" fill="#fff"/>`,
    ...head.drawn,
    ...drawLegend(legendTop, width - 2 * margin),
    ...drawn,
    '</svg>',
    ''
  ].join('\n')
}

/** For each step, the steps that lead to it without a line. */
function entriesOf({ panels }: Flow): ReadonlyMap<number, readonly number[]> {
  const entries = new Map<number, number[]>()
  for (const panel of panels) {
    const drawn = drawnIn(panel)
    for (const node of panel.nodes) {
      for (const exit of node.exits) {
        if (drawn(node, exit)) continue
        const known = entries.get(exit.to) ?? []
        if (!known.includes(node.number)) known.push(node.number)
        entries.set(exit.to, known)
      }
    }
  }
  return entries
}

/** Sections one below the other, in as many columns as make the whole about as wide as it is high. */
function inColumns(panels: readonly PlacedPanel[]): readonly (readonly PlacedPanel[])[] {
  const area = panels.reduce((sum, { width, height }) => sum + (width + columnGap) * (height + panelGap), 0)
  const tallest = Math.max(...panels.map(({ height }) => height))
  const most = Math.max(tallest, Math.sqrt(area) * 1.05)
  const columns: PlacedPanel[][] = []
  let used = Number.POSITIVE_INFINITY
  for (const panel of panels) {
    if (used + panel.height > most) {
      columns.push([])
      used = 0
    }
    columns.at(-1)?.push(panel)
    used += panel.height + panelGap
  }
  return columns
}

function headOf(machine: Machine, width: number): { readonly height: number; readonly drawn: readonly string[] } {
  const { equipment } = machine
  const caution =
    'The drawing shows the order of the steps and no more. Work by the procedure itself; follow the rules of the plant, ' +
    'local codes and qualified people.'
  const lines: readonly (readonly [number, string, string])[] = [
    ...wrapText(`${machine.procedure}, revision ${machine.revision}: ${machine.title}`, width, 20, 3).map(
      (line) => [20, line, 'class="heading"'] as const
    ),
    ...wrapText(`${equipment.tag}, ${equipment.name}, ${equipment.place}`, width, 13, 2).map(
      (line) => [13, line, ''] as const
    ),
    ...wrapText(caution, width, 12, 3).map((line) => [12, line, 'class="quiet"'] as const)
  ]
  let y = margin
  const drawn = lines.map(([size, line, attributes]) => {
    y += size * 1.35
    return text(margin, y, size, line, attributes)
  })
  return { height: y - margin + 18, drawn }
}

function drawLegend(top: number, width: number): readonly string[] {
  const inRow = Math.max(1, Math.floor(width / (legendWidth + 12)))
  return legend.flatMap(([role, words], index) => {
    const x = margin + (index % inRow) * (legendWidth + 12)
    const y = top + Math.floor(index / inRow) * (legendHeight + 10)
    return [
      ...shapeOf(role, x, y, legendWidth, legendHeight),
      ...wrapText(words, legendWidth - 34, 10.5, 2).map((line, at, all) =>
        text(x + legendWidth / 2, y + (all.length === 1 ? 21 : 15) + 12 * at, 10.5, line, 'text-anchor="middle"')
      )
    ]
  })
}

function drawPanel(
  { panel, width, height, heading, boxes, lines }: PlacedPanel,
  x: number,
  y: number
): readonly string[] {
  return [
    `<rect class="${panel.copy ? 'copy' : 'panel'}" x="${round(x)}" y="${round(y)}" width="${round(width)}" height="${round(height)}" rx="6"/>`,
    ...heading.map((line, index) => text(x + 16, y + 22 + headingLine * index, headingSize, line, 'class="heading"')),
    ...lines.map(
      (line) =>
        `<polyline class="line" marker-end="url(#tip)" points="${line.map((corner) => `${round(x + corner.x)},${round(y + corner.y)}`).join(' ')}"/>`
    ),
    ...boxes.flatMap((placed) => drawNode(placed.box, x + placed.x, y + placed.y))
  ]
}
