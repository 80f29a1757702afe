import type { Card } from '../blocks/block.js'
import { drawMark, markSize } from './marks.js'
import type { Pen } from './pen.js'
import type { Setting } from './setting.js'
import { gap, type Slab } from './slab.js'
import { grey } from './style.js'
import { type Tag, tag } from './tag.js'

/** The room at the left of a step's text, where its number stands, and at its right. */
export const gutter = 42
export const innerPad = 10

const post = 4
const barHeight = 16
const foot = { width: 16, height: 3 }

/**
 * The bar over a gate, a test with power on, or a stop: with the posts at both sides it makes a gateway that
 * one cannot read past. Other steps have none. Without a node it is drawn as decoration (on a continuation).
 */
export function barSlab(card: Card, width: number, setting: Setting, node: Tag | null): readonly Slab[] {
  if (card.shape === 'plain' || card.shape === 'choice') return []
  const word = card.shape === 'gate' ? `${setting.catalog.steps.gate.toUpperCase()}: ${card.bar}` : card.bar
  const ink = card.shape === 'live' ? '#000000' : '#FFFFFF'
  // A long word of another language is set smaller, never cut.
  const size = Math.min(9.5, (9.5 * (width - gutter - innerPad)) / setting.metrics.width(`${word} `, 'bold', 9.5))
  return [
    {
      height: barHeight,
      draw: (pen, x, y) => {
        pen.decor(() => {
          if (card.shape === 'live')
            pen.rectangle(x + 1, y + 1, width - 2, barHeight - 2, {
              fill: grey.fill,
              stroke: '#000000',
              weight: 2,
              dash: 5
            })
          else pen.rectangle(x, y, width, barHeight, { fill: '#000000' })
          drawMark(pen, card.kind, x + gutter - 8 - markSize, y + 2.5, ink)
        })
        const write = (): void => pen.label(`${word} `, x + gutter, y + 2 + (9.5 - size) / 2, size, 'bold', ink)
        if (node === null) pen.decor(write)
        else pen.under(tag('P', node), write)
      }
    }
  ]
}

/** The sides of the step's frame along one strip. */
export function framedSlab(slab: Slab, card: Card, width: number): Slab {
  // What is only read beside another language is not framed: its strips do not touch.
  if (card.times === 0) return slab
  return {
    height: slab.height,
    draw: (pen, x, y) => {
      pen.decor(() => drawSides(pen, card, x, y, width, slab.height))
      slab.draw(pen, x, y)
    }
  }
}

function drawSides(pen: Pen, { shape }: Card, x: number, y: number, width: number, height: number): void {
  switch (shape) {
    case 'gate':
      pen.rectangle(x, y, post, height, { fill: '#000000' })
      pen.rectangle(x + width - post, y, post, height, { fill: '#000000' })
      return
    case 'live':
      for (const at of [x + 1, x + width - 1])
        pen.path(
          [
            [at, y],
            [at, y + height]
          ],
          { stroke: '#000000', weight: 2, dash: 5 }
        )
      return
    case 'stop':
      for (const at of [x + 0.5, x + 3.5, x + width - 3.5, x + width - 0.5])
        pen.path(
          [
            [at, y],
            [at, y + height]
          ],
          { stroke: '#000000', weight: 1 }
        )
      return
    case 'plain':
    case 'choice':
      return
  }
}

/** What closes a step: the feet of the posts, the lower edge of a frame, or a thin rule. */
export function endSlab({ shape, times }: Card, width: number): Slab {
  if (times === 0) return gap(6)
  return {
    height: 6,
    draw: (pen, x, y) =>
      pen.decor(() => {
        switch (shape) {
          case 'gate':
            pen.rectangle(x, y, foot.width, foot.height, { fill: '#000000' })
            pen.rectangle(x + width - foot.width, y, foot.width, foot.height, { fill: '#000000' })
            return
          case 'live':
            pen.path(
              [
                [x, y + 1],
                [x + width, y + 1]
              ],
              { stroke: '#000000', weight: 2, dash: 5 }
            )
            return
          case 'stop':
            for (const at of [y + 0.5, y + 3.5])
              pen.path(
                [
                  [x, at],
                  [x + width, at]
                ],
                { stroke: '#000000', weight: 1 }
              )
            return
          case 'plain':
          case 'choice':
            pen.path(
              [
                [x, y + 3],
                [x + width, y + 3]
              ],
              { stroke: grey.rule, weight: 0.5 }
            )
            return
        }
      })
  }
}

/** The broken rail beside a step that is for some generations only. */
export function railed(slab: Slab, { rail }: Card): Slab {
  if (rail === '') return slab
  return {
    height: slab.height,
    draw: (pen, x, y) => {
      drawRail(pen, x - 9, y, slab.height)
      slab.draw(pen, x, y)
    }
  }
}

export function drawRail(pen: Pen, x: number, y: number, height: number): void {
  pen.decor(() => {
    pen.rectangle(x - 2.5, y, 5, height, { stroke: '#000000', weight: 0.6 })
    pen.path(
      [
        [x, y + 1],
        [x, y + height]
      ],
      { stroke: '#000000', weight: 3, dash: 4 }
    )
  })
}
