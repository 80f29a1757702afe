import type { NoticeBlock } from '../blocks/block.js'
import { contentSlabs } from './content-slabs.js'
import { drawTicks, ticksWidth } from './form-parts.js'
import type { Pen } from './pen.js'
import { type Setting, setLines } from './setting.js'
import type { Slab } from './slab.js'
import { leading, signals, type } from './style.js'
import { type Tag, tag } from './tag.js'

const pad = 7
const panelHeight = 17

/** A safety message: the signal word on its panel, the box for "read", then the text, all in one frame. */
export function noticeSlabs(
  notice: NoticeBlock,
  times: number,
  width: number,
  setting: Setting,
  parent: Tag
): readonly Slab[] {
  const look = signals[notice.word]
  const node = tag('Sect', parent, { title: notice.signal })
  const body = contentSlabs(notice.body, width - 2 * pad, setting, node)
  const label = setLines([{ kind: 'strong', text: notice.label }], width - 2 * pad, type.body, setting)
  const read = setting.catalog.steps.acknowledge
  const readWidth = setting.metrics.width(read, 'regular', type.small)
  const boxes = ticksWidth(times)
  const face = notice.word === 'notice' ? 'oblique' : 'bold'
  const wordAt = look.alert ? pad + 18 : pad
  const degreeAt = wordAt + setting.metrics.width(notice.signal, face, 11) + 9
  const labelHeight = notice.label === '' ? 0 : label.length * leading(type.body)
  const head: Slab = {
    height: panelHeight + 3 + labelHeight,
    draw: (pen, x, y) => {
      pen.decor(() => {
        pen.rectangle(x, y, width, panelHeight, { fill: look.panel })
        if (look.alert) drawAlert(pen, x + pad, y + 2.5, look.ink)
        drawDegree(pen, look.degree, x + degreeAt, y + 5.5, look.ink)
        if (times > 0)
          pen.rectangle(x + width - readWidth - boxes - 15, y + 2, readWidth + boxes + 9, panelHeight - 4, {
            fill: '#FFFFFF'
          })
      })
      pen.under(tag('P', node), () => pen.label(`${notice.signal} `, x + wordAt, y + 1.5, 11, face, look.ink))
      if (notice.label !== '')
        pen.under(tag('P', node), () => pen.lines(label, x + pad, y + panelHeight + 2, type.body))
      // Read beside another language, where the box is.
      if (times === 0) return
      const acknowledged = tag('P', node)
      const left = x + width - readWidth - boxes - 11
      drawTicks(pen, 'box', notice.field, times, left, y + 3, acknowledged)
      pen.under(acknowledged, () => pen.label(`${read} `, left + boxes, y + 3, type.small))
    }
  }
  const strips = [
    head,
    ...body.map((slab): Slab => ({ height: slab.height, draw: (pen, x, y) => slab.draw(pen, x + pad, y) }))
  ]
  const end: Slab = { height: 3, draw: () => {} }
  return [...framed([...strips, end], width, look.frame), { height: 4, draw: () => {} }]
}

/** Each strip draws its share of the frame, so that a message that is cut stays framed. */
function framed(slabs: readonly Slab[], width: number, weight: number): readonly Slab[] {
  return slabs.map((slab, index) => ({
    height: slab.height,
    draw: (pen, x, y) => {
      slab.draw(pen, x, y)
      pen.decor(() => {
        for (const at of [x, x + width])
          pen.path(
            [
              [at, y],
              [at, y + slab.height]
            ],
            { stroke: '#000000', weight }
          )
        if (index === 0)
          pen.path(
            [
              [x - weight / 2, y],
              [x + width + weight / 2, y]
            ],
            { stroke: '#000000', weight }
          )
        if (index === slabs.length - 1) {
          const bottom = y + slab.height
          pen.path(
            [
              [x - weight / 2, bottom],
              [x + width + weight / 2, bottom]
            ],
            { stroke: '#000000', weight }
          )
        }
      })
    }
  }))
}

/** So many blocks behind the word: three where people die, two where they may, one where they are hurt. Grey print shows them too. */
function drawDegree(pen: Pen, degree: number, x: number, y: number, ink: string): void {
  for (let block = 0; block < degree; block += 1) pen.rectangle(x + block * 8.5, y, 6, 6, { fill: ink })
}

/** The alert triangle of ANSI Z535.4: only before words that are about people. */
function drawAlert(pen: Pen, x: number, y: number, ink: string): void {
  pen.path(
    [
      [x, y + 12],
      [x + 7, y],
      [x + 14, y + 12]
    ],
    { stroke: ink, weight: 1.4, closed: true }
  )
  pen.rectangle(x + 6.2, y + 4, 1.6, 4.2, { fill: ink })
  pen.rectangle(x + 6.2, y + 9, 1.6, 1.6, { fill: ink })
}
