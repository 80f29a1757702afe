import { encode } from 'uqr'
import type { TitleBlock } from '../blocks/block.js'
import { say, stress } from '../text/say.js'
import type { Pen } from './pen.js'
import { type Setting, setLines } from './setting.js'
import { type Flow, flow, type Slab } from './slab.js'
import { columnOf, leading, type } from './style.js'
import { tag } from './tag.js'

const codeSide = 96
const labelWidth = 104

/** The head of the first page: what, where, which revision, and the QR code at the right. */
export function titleFlow(block: TitleBlock, letterhead: string, setting: Setting): Flow {
  const width = columnOf(setting.page)
  const beside = width - codeSide - 14
  const node = tag('Sect', null, { title: block.title })
  const kicker = setLines(
    say(letterhead === '' ? block.kicker : `${letterhead} | ${block.kicker}`),
    beside,
    type.small,
    setting
  )
  const title = setLines(stress(block.title), beside, type.title, setting, 'bold')
  const table = tag('Table', node)
  const facts = block.facts.map(({ label, value }) => ({
    row: tag('TR', table),
    label: setLines(stress(label), labelWidth - 6, type.table, setting, 'bold'),
    value: setLines(say(value), beside - labelWidth, type.table, setting)
  }))
  const factHeight = (fact: (typeof facts)[number]): number =>
    Math.max(fact.label.length, fact.value.length) * leading(type.table) + 2
  const above = kicker.length * leading(type.small) + title.length * leading(type.title) + 6
  const height = Math.max(codeSide, above + facts.reduce((sum, fact) => sum + factHeight(fact), 0)) + 4
  const slab: Slab = {
    height,
    draw: (pen, x, y) => {
      pen.under(tag('P', node), () => pen.lines(kicker, x, y, type.small))
      const top = y + kicker.length * leading(type.small) + 2
      pen.bookmark(0, block.title, y)
      pen.under(tag('H1', node), () => pen.lines(title, x, top, type.title))
      let down = y + above
      for (const fact of facts) {
        pen.under(tag('TH', fact.row, { scope: 'Row' }), () => pen.lines(fact.label, x, down, type.table))
        pen.under(tag('TD', fact.row), () => pen.lines(fact.value, x + labelWidth, down, type.table))
        down += factHeight(fact)
      }
      const left = x + width - codeSide
      pen.under(tag('Figure', node, { alt: block.codeAlternate, bbox: [left, y, left + codeSide, y + codeSide] }), () =>
        drawCode(pen, block.code, left, y, codeSide)
      )
    }
  }
  return flow([slab], { before: 0 })
}

/** A QR code with its quiet zone, one rectangle for each run of dark modules. */
export function drawCode(pen: Pen, text: string, x: number, y: number, side: number): void {
  const { data, size } = encode(text, { ecc: 'M', border: 4 })
  const module = side / size
  data.forEach((row, down) => {
    let start = -1
    for (let across = 0; across <= size; across += 1) {
      const dark = row[across] === true
      if (dark && start === -1) start = across
      if (dark || start === -1) continue
      pen.rectangle(x + start * module, y + down * module, (across - start) * module, module + 0.02, {
        fill: '#000000'
      })
      start = -1
    }
  })
}
