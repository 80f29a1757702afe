import type { Pen } from '../draw/pen.js'
import type { Setting } from '../draw/setting.js'
import { tag } from '../draw/tag.js'
import { drawCode } from '../draw/title-flow.js'
import { say, stress } from '../text/say.js'
import type { DeviceFacts } from './device-facts.js'
import { writer } from './draw-tag.js'
import { fitText } from './fit-text.js'

/** A label is 95 by 50 mm, two across and five down on a page. Our own size. In points. */
export const labelSize = { width: 269.29, height: 141.73, across: 2, down: 5 } as const

const pad = 8
const code = 64

/** The label of one isolating device. Gives the texts that did not fit. */
export function drawLabel(pen: Pen, x: number, y: number, facts: DeviceFacts, setting: Setting): readonly string[] {
  const { label } = setting.catalog.hanging
  const { write, missing } = writer(pen, facts.id)
  const { width, height } = labelSize
  pen.decor(() => {
    pen.rectangle(x, y, width, height, { stroke: '#000000', weight: 0.4 })
    pen.rectangle(x + 3, y + 3, width - 6, height - 6, { stroke: '#000000', weight: 1.6 })
  })
  const beside = width - 2 * pad - code - 6
  const id = fitText(stress(facts.id), { width: beside, height: 30 }, 22, setting, 'bold')
  write(id, x + pad, y + 6)
  let down = y + 6 + id.height
  const named = fitText(
    say(`${facts.is}, ${facts.where}. ${facts.equipment}`),
    { width: beside, height: 34 },
    8,
    setting
  )
  write(named, x + pad, down)
  down += named.height + 3
  const safe = fitText([...say(`${label.safe}: `), ...stress(facts.safe)], { width: beside, height: 26 }, 9.5, setting)
  write(safe, x + pad, down)
  down = Math.max(down + safe.height + 3, y + 6 + code)
  const stored = facts.stored.length === 0 ? [] : stress(` ${facts.stored.join(', ')}: ${label.stored}.`)
  const told = [...stress(`${label.isolates}: `), ...say(`${facts.cuts.join('. ')}.`), ...stored]
  const foot = fitText(say(`${facts.procedure}. ${label.proof}`), { width: width - 2 * pad, height: 16 }, 6.5, setting)
  const bottom = y + height - 6 - foot.height
  write(fitText(told, { width: width - 2 * pad, height: bottom - down - 2 }, 8, setting), x + pad, down)
  write(foot, x + pad, bottom)
  const left = x + width - pad - code + 4
  pen.under(tag('Figure', null, { alt: `QR: ${facts.code}`, bbox: [left, y + 5, left + code, y + 5 + code] }), () =>
    drawCode(pen, facts.code, left, y + 5, code)
  )
  return missing()
}
