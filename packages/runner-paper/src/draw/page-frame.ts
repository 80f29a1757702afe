import type { Runs } from '@lockwright/language'
import type { Line } from '../text/break-lines.js'
import { say, stress } from '../text/say.js'
import type { PageTexts } from './page-texts.js'
import type { Pen } from './pen.js'
import { type Setting, setLines } from './setting.js'
import { grey, type } from './style.js'

/** What stands on every page: the running header with digest and page number, the footer, and DRAFT where it was not issued. */
export function drawPageFrame(pen: Pen, texts: PageTexts, draft: boolean, count: number, setting: Setting): void {
  const { page, catalog, metrics } = setting
  const right = page.width - page.right
  const number = catalog.page(pen.page, count)
  const atRight = (text: string, y: number, size: number, face: 'regular' | 'bold'): void =>
    pen.label(text, right - metrics.width(text, face, size), y, size, face)
  pen.decor(() => {
    if (draft) drawDraft(pen, setting)
    const room = right - page.left - metrics.width(number, 'bold', type.small) - 12
    pen.lines(clipped(stress(texts.fixedHeader), room, setting), page.left, 26, type.small)
    atRight(number, 26, type.small, 'bold')
    pen.lines(clipped(say(texts.header), right - page.left, setting), page.left, 37, type.small)
    pen.path(
      [
        [page.left, 50],
        [right, 50]
      ],
      { stroke: '#000000', weight: 0.75 }
    )
    const foot = page.height - page.bottom + 12
    pen.path(
      [
        [page.left, foot],
        [right, foot]
      ],
      { stroke: '#000000', weight: 0.5 }
    )
    pen.lines(clipped(stress(texts.fixedFooter), (right - page.left) * 0.6, setting), page.left, foot + 4, type.small)
    const footer = clipped(say(texts.footer), (right - page.left) * 0.38, setting)
    pen.lines(footer, right - (footer[0]?.width ?? 0), foot + 4, type.small)
  })
}

/** One line; what is too long for it ends in an ellipsis. */
function clipped(runs: Runs, width: number, setting: Setting): readonly Line[] {
  const lines = setLines(runs, width, type.small, setting)
  const [first] = lines
  if (first === undefined || lines.length === 1) return lines
  const [short = first] = setLines(runs, width - 10, type.small, setting)
  const segments = short.segments.map((segment, index) =>
    index === short.segments.length - 1 ? { ...segment, text: `${segment.text}…` } : segment
  )
  return [{ ...short, segments }]
}

const turn = (52 * Math.PI) / 180

/** The word across the page, in light grey under everything else. */
function drawDraft(pen: Pen, { page, catalog, metrics }: Setting): void {
  // Along the line at which it stands, the word ends before the edges of the paper, in every language.
  const room = Math.min(page.width / Math.cos(turn), page.height / Math.sin(turn)) * 0.86
  const size = Math.min(128, (128 * room) / metrics.width(catalog.draft, 'bold', 128))
  const wide = metrics.width(catalog.draft, 'bold', size)
  pen.turned((-turn * 180) / Math.PI, page.width / 2, page.height / 2, () =>
    pen.label(catalog.draft, page.width / 2 - wide / 2, page.height / 2 - size * 0.65, size, 'bold', grey.draft)
  )
}
