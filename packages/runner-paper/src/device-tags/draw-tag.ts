import type { Catalog } from '../catalog.js'
import { drawBlank } from '../draw/form-parts.js'
import type { Pen } from '../draw/pen.js'
import type { Setting } from '../draw/setting.js'
import { signals, type } from '../draw/style.js'
import { tag } from '../draw/tag.js'
import { drawCode } from '../draw/title-flow.js'
import { say, stress } from '../text/say.js'
import type { DeviceFacts } from './device-facts.js'
import { type FittedText, fitText } from './fit-text.js'

/** A tag is 80 by 130 mm; two of them, front and back, lie beside each other. Our own size. In points. */
export const tagSize = { width: 226.77, height: 368.5 } as const

const pad = 10
const inner = tagSize.width - 2 * pad
const hole = { down: 20, radius: 8 } as const
const band = { down: 36, height: 40 } as const

type Write = (text: FittedText, x: number, y: number, color?: string) => void

/** The front: the word, what must not be done, whose lock it is. Gives the texts that did not fit. */
export function drawTagFront(pen: Pen, x: number, y: number, facts: DeviceFacts, setting: Setting): readonly string[] {
  const { catalog } = setting
  const { tag: words } = catalog.hanging
  const { write, missing } = writer(pen, `${facts.id}: ${words.front}`)
  drawFrame(pen, x, y, 'front')
  const { panel, ink } = signals.danger
  pen.decor(() => {
    pen.rectangle(x + 4, y + band.down, tagSize.width - 8, band.height, { fill: panel, stroke: '#000000', weight: 2.5 })
    drawAlert(pen, x + 16, y + band.down + 6, 28, ink)
  })
  const word = fitText(stress(catalog.signalWords.danger), { width: inner - 46, height: 34 }, 25, setting, 'bold')
  write(word, x + 52, y + band.down + (band.height - word.height) / 2, ink)
  let down = y + band.down + band.height + 8
  for (const legend of words.legends) {
    const set = fitText(stress(legend.toUpperCase()), { width: inner - 20, height: 17 }, 12.5, setting, 'bold')
    pen.decor(() => drawBarred(pen, x + pad + 6, down + 8, 6))
    write(set, x + pad + 20, down + (16 - set.height) / 2)
    down += 18
  }
  down += 4
  const id = fitText(stress(facts.id), { width: inner * 0.4, height: 26 }, 19, setting, 'bold')
  write(id, x + pad, down)
  const beside = Math.max(id.lines[0]?.width ?? 0, 20) + 8
  const named = fitText(say(facts.equipment), { width: inner - beside, height: 26 }, 10, setting)
  write(named, x + pad + beside, down + Math.max(0, (26 - named.height) / 2))
  down += 28
  for (const [label, across] of [
    [words.owner, 1],
    [words.department, 1],
    [[words.hung, words.lock], 2],
    [words.expected, 1]
  ] as const) {
    const labels = typeof label === 'string' ? [label] : label
    const wide = (inner - (across - 1) * 4) / across
    labels.forEach((each, index) => {
      const left = x + pad + index * (wide + 4)
      drawBlank(pen, left, down, wide, 32)
      write(fitText(say(each), { width: wide - 6, height: 10 }, type.tiny, setting), left + 3, down + 1)
    })
    down += 34.5
  }
  const only = fitText(
    stress(words.onlyOwner),
    { width: inner, height: y + tagSize.height - 6 - down },
    7.5,
    setting,
    'bold'
  )
  write(only, x + pad, down)
  return missing()
}

/** The back: what the device cuts off, its safe position, and what a tag is not. */
export function drawTagBack(pen: Pen, x: number, y: number, facts: DeviceFacts, setting: Setting): readonly string[] {
  const { tag: words, label } = setting.catalog.hanging
  const { write, missing } = writer(pen, `${facts.id}: ${words.back}`)
  drawFrame(pen, x, y, 'back')
  const code = 72
  const set = (text: Parameters<typeof fitText>[0], height: number, size: number, down: number): number => {
    const fitted = fitText(text, { width: inner, height }, size, setting)
    write(fitted, x + pad, down)
    return down + fitted.height
  }
  let down = y + band.down
  down = set([...stress(facts.id), ...say(`  ${facts.is}`)], 42, 14, down) + 2
  down = set(say(`${facts.where}. ${facts.equipment}, ${facts.place}`), 36, 9, down) + 6
  pen.decor(() => pen.rectangle(x + pad, down, inner, 40, { stroke: '#000000', weight: 1.5 }))
  write(fitText(say(words.safe), { width: inner - 8, height: 10 }, 7, setting), x + pad + 4, down + 2)
  const safe = fitText(stress(facts.safe), { width: inner - 8, height: 27 }, 13, setting, 'bold')
  write(safe, x + pad + 4, down + 11)
  down += 48
  down = set(stress(words.holds), 12, 9, down) + 2
  for (const cut of facts.cuts) down = set(say(`– ${cut}`), 44, 9, down) + 2
  if (facts.stored.length > 0) down = set(stress(`${facts.stored.join(', ')}: ${label.stored}.`), 44, 8, down + 2) + 2
  const foot = y + tagSize.height - pad
  const room = foot - code - 8 - down
  const alone = fitText(
    stress(`${words.tagAlone} ${words.onlyOwner}`),
    { width: inner, height: Math.max(room, 0) },
    8.5,
    setting
  )
  write(alone, x + pad, down + 4)
  pen.under(tag('Figure', null, { alt: `QR: ${facts.code}`, bbox: [x + pad, foot - code, x + pad + code, foot] }), () =>
    drawCode(pen, facts.code, x + pad, foot - code, code)
  )
  const told = fitText(say(facts.procedure), { width: inner - code - 8, height: code - 6 }, 8, setting)
  write(told, x + pad + code + 8, foot - told.height)
  return missing()
}

/** Writes under one node, and remembers what did not fit. */
export function writer(pen: Pen, title: string): { readonly write: Write; readonly missing: () => readonly string[] } {
  const node = tag('Sect', null, { title })
  const left: string[] = []
  return {
    write: (text, x, y, color) => {
      if (!text.fits) left.push(text.lines.flatMap(({ segments }) => segments.map((each) => each.text)).join(' '))
      pen.under(tag('P', node), () => pen.lines(text.lines, x, y, text.size, color))
    },
    missing: () => left
  }
}

/** The edges to cut along, without the one at which it is folded, and the ring where the hole is punched. */
function drawFrame(pen: Pen, x: number, y: number, side: 'front' | 'back'): void {
  const [outer, fold] = side === 'front' ? [x, x + tagSize.width] : [x + tagSize.width, x]
  pen.decor(() => {
    pen.path(
      [
        [fold, y],
        [outer, y],
        [outer, y + tagSize.height],
        [fold, y + tagSize.height]
      ],
      { stroke: '#000000', weight: 0.4 }
    )
    pen.disc(x + tagSize.width / 2, y + hole.down, hole.radius, { stroke: '#000000', weight: 0.8 })
    pen.disc(x + tagSize.width / 2, y + hole.down, hole.radius + 3, { stroke: '#000000', weight: 0.4 })
  })
}

/** A triangle with a stroke and a dot, as the general sign of warning has them (ISO 7010, W001, from memory). */
function drawAlert(pen: Pen, x: number, y: number, side: number, ink: string): void {
  pen.path(
    [
      [x + side / 2, y],
      [x + side, y + side * 0.92],
      [x, y + side * 0.92]
    ],
    { stroke: ink, weight: 2.4, closed: true }
  )
  pen.rectangle(x + side / 2 - 1.5, y + side * 0.34, 3, side * 0.3, { fill: ink })
  pen.disc(x + side / 2, y + side * 0.76, 1.9, { fill: ink })
}

/** A ring with a bar through it: not to be done. */
function drawBarred(pen: Pen, x: number, y: number, radius: number): void {
  const reach = radius * Math.SQRT1_2
  pen.disc(x, y, radius, { stroke: '#000000', weight: 1.8 })
  pen.path(
    [
      [x - reach, y - reach],
      [x + reach, y + reach]
    ],
    { stroke: '#000000', weight: 1.8 }
  )
}

/** The word across what was not issued. */
export function drawDraftWord(pen: Pen, x: number, y: number, width: number, height: number, setting: Setting): void {
  const { metrics, catalog } = setting as { readonly metrics: Setting['metrics']; readonly catalog: Catalog }
  const size = Math.min(46, (Math.hypot(width, height) * 0.62 * 46) / metrics.width(catalog.draft, 'bold', 46))
  const wide = metrics.width(catalog.draft, 'bold', size)
  pen.decor(() =>
    pen.turned((-Math.atan2(height, width) * 180) / Math.PI, x + width / 2, y + height / 2, () =>
      pen.label(catalog.draft, x + (width - wide) / 2, y + height / 2 - size * 0.65, size, 'bold', '#E0E0E0')
    )
  )
}
