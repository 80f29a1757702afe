import type { Chart, ChartFill, ChartMark } from '@lockwright/records'
import type { Paint, Pen } from '../draw/pen.js'
import { type Setting, setLines } from '../draw/setting.js'
import { type Flow, flow } from '../draw/slab.js'
import { columnOf, leading, type } from '../draw/style.js'
import { tag } from '../draw/tag.js'
import { say } from '../text/say.js'

const ink = '#000000'
const widest = 370

const fills: Readonly<Record<ChartFill, Paint>> = {
  empty: { fill: '#FFFFFF', stroke: ink, weight: 0.75 },
  light: { fill: '#CCCCCC', stroke: ink, weight: 0.75 },
  dark: { fill: '#1A1A1A', stroke: ink, weight: 0.75 }
}

/** A chart as a figure with its alternate text, its title under it. */
export function chartFlow({ title, width, height, marks, alternate }: Chart, setting: Setting): Flow {
  const wide = Math.min(columnOf(setting.page), widest)
  const scale = wide / width
  const drawn = height * scale
  const lines = setLines(say(title), wide, type.small, setting)
  return flow(
    [
      {
        height: drawn + lines.length * leading(type.small) + 8,
        draw: (pen, x, y) => {
          const node = tag('Sect', null)
          const bbox = [x, y, x + wide, y + drawn] as const
          pen.under(tag('Figure', node, { alt: alternate, bbox }), () => {
            for (const mark of marks) drawMark(pen, mark, x, y, scale, setting)
          })
          pen.under(tag('P', node), () => pen.lines(lines, x, y + drawn + 2, type.small))
        }
      }
    ],
    { before: 10 }
  )
}

function drawMark(pen: Pen, mark: ChartMark, left: number, top: number, scale: number, { metrics }: Setting): void {
  switch (mark.kind) {
    case 'box':
      pen.rectangle(
        left + mark.x * scale,
        top + mark.y * scale,
        mark.width * scale,
        mark.height * scale,
        fills[mark.fill]
      )
      return
    case 'line': {
      const points = mark.points.map(([x, y]) => [left + x * scale, top + y * scale] as const)
      const dash = mark.dash === 0 ? {} : { dash: mark.dash * scale }
      pen.path(points, { stroke: ink, weight: mark.weight * scale, ...dash })
      return
    }
    case 'ring':
      pen.disc(left + mark.x * scale, top + mark.y * scale, mark.radius * scale, { stroke: ink, weight: 0.75 })
      return
    case 'text': {
      const size = mark.size * scale
      const face = mark.bold ? 'bold' : 'regular'
      const wide = metrics.width(mark.text, face, size)
      const back = { start: 0, middle: wide / 2, end: wide }[mark.anchor]
      pen.label(mark.text, left + mark.x * scale - back, top + mark.y * scale - size, size, face)
    }
  }
}
