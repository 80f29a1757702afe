import { calloutsOf } from '../pictures/callouts.js'
import type { Picture } from '../pictures/picture.js'
import { say, stress } from '../text/say.js'
import type { Pen } from './pen.js'
import { type Setting, setLines } from './setting.js'
import type { Slab } from './slab.js'
import { grey, leading, type } from './style.js'
import { type Tag, tag } from './tag.js'

const after = 5
/** Points: about a third of a page, so that what belongs to a picture finds room on the same page. */
const tallest = 250
/** Pixels an inch below which a picture would show its pixels. */
const coarsest = 110
const mark = 6.5

/** A picture in a thin frame with its callouts and caption; what was refused or not found is told by its alternate text. */
export function pictureSlab(alternate: string, source: string, width: number, setting: Setting, node: Tag): Slab {
  const picture = setting.pictures?.get(source)
  return picture === undefined
    ? toldSlab(alternate === '' ? source : alternate, width, setting, node)
    : drawnSlab(picture, alternate === '' ? source : alternate, width, setting, node)
}

function toldSlab(alternate: string, width: number, setting: Setting, node: Tag): Slab {
  const { form, steps } = setting.catalog
  const text = setting.pictures === undefined ? steps.picture(alternate) : form.notShown(alternate)
  const lines = setLines([{ kind: 'emphasis', text }], width - 16, type.small, setting)
  const height = lines.length * leading(type.small) + 10
  return {
    height: height + after,
    draw: (pen, x, y) => {
      pen.decor(() => pen.rectangle(x, y, width, height, { stroke: grey.rule, weight: 0.75, dash: 2 }))
      pen.under(tag('P', node), () => pen.lines(lines, x + 8, y + 4, type.small))
    }
  }
}

function drawnSlab(picture: Picture, alternate: string, width: number, setting: Setting, node: Tag): Slab {
  const { caption, callouts } = calloutsOf(alternate)
  const natural = picture.kind === 'drawing' ? picture.width : (picture.width * 72) / coarsest
  const scale = Math.min(1, width / natural, tallest / ((natural * picture.height) / picture.width))
  const [wide, tall] = [natural * scale, (natural * scale * picture.height) / picture.width]
  const under = [
    ...(caption === '' ? [] : [say(caption)]),
    ...callouts.map(({ number, text }) => [...stress(`${number} `), ...say(text)])
  ].map((runs) => setLines(runs, width, type.small, setting))
  const told = under.reduce((sum, lines) => sum + lines.length * leading(type.small), 0)
  return {
    height: tall + told + after + 3,
    draw: (pen, x, y) => {
      pen.under(tag('Figure', node, { alt: alternate, bbox: [x, y, x + wide, y + tall] }), () => {
        pen.picture(picture, x, y, wide, tall)
        pen.rectangle(x, y, wide, tall, { stroke: '#000000', weight: 0.5 })
        for (const { number, x: across, y: down } of callouts)
          drawCallout(pen, number, x + across * wide, y + down * tall, setting)
      })
      let down = y + tall + 2
      for (const lines of under) {
        pen.under(tag('P', node), () => pen.lines(lines, x, down, type.small))
        down += lines.length * leading(type.small)
      }
    }
  }
}

/** White on black in a white ring: told from any picture, in grey as well. */
function drawCallout(pen: Pen, number: string, x: number, y: number, { metrics }: Setting): void {
  pen.disc(x, y, mark + 1.2, { fill: '#FFFFFF' })
  pen.disc(x, y, mark, { fill: '#000000' })
  const wide = metrics.width(number, 'bold', type.small)
  pen.label(`${number} `, x - wide / 2, y - type.small * 0.64, type.small, 'bold', '#FFFFFF')
}
