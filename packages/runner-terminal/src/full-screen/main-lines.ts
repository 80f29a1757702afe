import { decayPlot } from '../decay/decay-plot.js'
import type { Screen, ShownNotice } from '../step/screen.js'
import { wrap } from '../text/wrap.js'
import { type Row, row, type Tone } from './row.js'

/** Lines that a plot takes on a low screen and on a tall one. */
const plotRows = { low: 6, tall: 12 }

/** Wider plots are hard to read along. */
const widestPlot = 72

/** The step as lines of a width: the notices, how it is done, the boxes, what was answered, and how what falls falls. */
export function mainLines(screen: Screen, width: number, tall: boolean): readonly Row[] {
  const lines = (text: string, tone: Tone, indent = ''): readonly Row[] =>
    wrap(text, width, indent).map((part) => row(part, tone))
  const plot = { columns: Math.min(width, widestPlot), rows: tall ? plotRows.tall : plotRows.low }
  return [
    ...screen.notices.flatMap((notice) => noticeRows(notice, width)),
    ...lines(screen.title, 'strong'),
    ...screen.body.flatMap((text) => lines(text, 'plain', '  ')),
    ...screen.boxes.flatMap(({ number, text, ticked }) => {
      const mark = `${String(number).padStart(2)} ${ticked ? '[x]' : '[ ]'} `
      return lines(mark + text, 'plain', ' '.repeat(mark.length))
    }),
    ...screen.answered.flatMap((text) => lines(`* ${text}`, 'plain', '  ')),
    ...screen.decays.flatMap(({ says, series }) => [
      ...says.flatMap((text) => lines(text, 'strong', '  ')),
      ...decayPlot(series, plot).map((text) => row(text, 'figure'))
    ]),
    ...screen.guide.flatMap((text) => lines(text, 'strong', '  '))
  ]
}

/** A frame of its own sets a notice apart, by shape. */
function noticeRows({ word, label, body }: ShownNotice, width: number): readonly Row[] {
  const edge = '='.repeat(width)
  const inside = (text: string, tone: Tone): readonly Row[] =>
    wrap(text, width - 2, '').map((part) => row(`| ${part}`, tone))
  return [
    row(edge, 'alarm'),
    ...inside(`!! ${word}${label === '' ? '' : `: ${label}`}`, headingTone(word)),
    ...body.flatMap((text) => inside(text, 'alarm')),
    row(edge, 'alarm'),
    row('', 'plain')
  ]
}

function headingTone(word: string): Tone {
  const tones: Readonly<Record<string, Tone>> = { DANGER: 'danger', WARNING: 'warning', CAUTION: 'caution' }
  return tones[word] ?? 'notice'
}
