import type { FlowRow } from '../blocks/block.js'
import type { Pen } from './pen.js'
import type { Setting } from './setting.js'

/** The outline of a step on the map. */
export const nodeSize = { width: 30, height: 10 } as const

const size = 7.5

/** The step's number in a shape that tells what it is, the same on the map as on the step: posts, fork, broken or double frame. */
export function drawFlowNode(
  pen: Pen,
  { number, shape }: Extract<FlowRow, { kind: 'node' }>,
  x: number,
  y: number,
  { metrics }: Setting
): void {
  const { width, height } = nodeSize
  const middle = y + height / 2
  const frame = { stroke: '#000000', weight: 0.8, fill: '#FFFFFF' }
  switch (shape) {
    case 'gate':
      pen.rectangle(x, y, width, height, frame)
      pen.rectangle(x, y, 4, height, { fill: '#000000' })
      pen.rectangle(x + width - 4, y, 4, height, { fill: '#000000' })
      break
    case 'choice':
      pen.path(
        [
          [x, middle],
          [x + 5, y],
          [x + width - 5, y],
          [x + width, middle],
          [x + width - 5, y + height],
          [x + 5, y + height]
        ],
        { ...frame, closed: true }
      )
      break
    case 'live':
      pen.rectangle(x, y, width, height, { ...frame, weight: 1.4, dash: 2.5 })
      break
    case 'stop':
      pen.rectangle(x, y, width, height, frame)
      pen.rectangle(x + 2, y + 2, width - 4, height - 4, { stroke: '#000000', weight: 0.6 })
      break
    case 'finish':
      pen.rectangle(x, y, width, height, { fill: '#000000' })
      break
    case 'plain':
      pen.rectangle(x, y, width, height, frame)
      break
  }
  const text = `${number} `
  const wide = metrics.width(String(number), 'bold', size)
  pen.label(text, x + (width - wide) / 2, y + 0.4, size, 'bold', shape === 'finish' ? '#FFFFFF' : '#000000')
}
