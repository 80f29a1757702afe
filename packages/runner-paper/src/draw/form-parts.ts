import type { Blank } from '../blocks/block.js'
import type { FormField } from '../form/form-field.js'
import type { Pen } from './pen.js'
import { type } from './style.js'
import type { Tag } from './tag.js'

export const boxSize = 11
export const blankHeight = 22
export const blankGap = 5

const widths: Readonly<Record<Blank['size'], number>> = { short: 62, medium: 98, long: 260 }

/** The width that a row of blanks takes, the space before each included. */
export function blanksWidth(blanks: readonly Blank[]): number {
  return blanks.reduce((sum, { size }) => sum + widths[size] + blankGap, 0)
}

/** Blanks in a row, their labels inside in small type; a row for each time. They end at `right`. */
export function drawBlanks(
  pen: Pen,
  blanks: readonly Blank[],
  times: number,
  right: number,
  y: number,
  node: Tag
): void {
  for (let time = 1; time <= times; time += 1) {
    const top = y + (time - 1) * (blankHeight + 2)
    let x = right - blanksWidth(blanks)
    for (const { label, size, field } of blanks) {
      const left = x + blankGap
      drawBlank(pen, left, top, widths[size], blankHeight)
      pen.under(node, () => pen.label(`${times === 1 ? '' : `${time}. `}${label}: `, left + 3, top + 1, type.tiny))
      const box = { x: left + 1, y: top + 8.5, width: widths[size] - 2, height: blankHeight - 9.5 }
      pen.field(node, field, box, time, times)
      x = left + widths[size]
    }
  }
}

/** The frame of a place to write in; what belongs in it is told by its label. */
export function drawBlank(pen: Pen, x: number, y: number, width: number, height: number): void {
  pen.decor(() => pen.rectangle(x, y, width, height, { stroke: '#000000', weight: 0.6 }))
}

/** Boxes side by side, one for each time, read out under the node. */
export function drawTicks(
  pen: Pen,
  shape: 'box' | 'circle',
  field: FormField | undefined,
  times: number,
  x: number,
  y: number,
  node: Tag
): void {
  for (let time = 1; time <= times; time += 1) {
    const left = x + (time - 1) * (boxSize + 3)
    pen.under(node, () => {
      if (times > 1) pen.label(String(time), left + 3.4, y + 2, type.tiny, 'regular', '#777777')
      pen.tick(shape, left, y, boxSize)
    })
    pen.field(node, field, { x: left, y, width: boxSize, height: boxSize }, time, times)
  }
}

export function ticksWidth(times: number): number {
  return times * (boxSize + 3) + 4
}

export function blanksHeight(times: number): number {
  return times * (blankHeight + 2) - 2
}
