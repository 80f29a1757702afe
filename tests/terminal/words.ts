import { frameOf, type Size } from '../../packages/runner-terminal/src/full-screen/frame.js'
import { firstView } from '../../packages/runner-terminal/src/full-screen/press.js'
import type { Row } from '../../packages/runner-terminal/src/full-screen/row.js'
import { tellHeading, tellScreen, toldNothing } from '../../packages/runner-terminal/src/plain/tell-screen.js'
import type { Screen } from '../../packages/runner-terminal/src/step/screen.js'

/** The words of lines, without what only draws: shapes, frames and bars hold no letter and no digit. */
function words(lines: readonly string[]): readonly string[] {
  return (
    lines
      .join(' ')
      .toLowerCase()
      .match(/[\p{L}\p{N}]+/gu) ?? []
  )
}

/** What names the commands is cut where the screen is narrow; everything else is whole on a tall one. */
const isCommands = (line: string): boolean => /^(- )?also: /i.test(line)

export function plainWords(screen: Screen, now: string): readonly string[] {
  const lines = [...tellHeading(screen), ...tellScreen(screen, toldNothing, now).lines]
  return words(lines.filter((line) => !isCommands(line)))
}

/** The words of the full screen as they are read: the head, what stands beside the step, then the step. */
export function fullWords(screen: Screen, size: Size, now: string): readonly string[] {
  const frame: readonly Row[] = frameOf(screen, firstView, size, now).rows.slice(0, -1)
  // A plot is told by the sentences above it.
  const rows = frame.map((row) => (row.tone === 'figure' ? { ...row, text: '' } : row))
  const place = `step ${screen.way.step} of about ${screen.way.about}`
  const upTo = (count: number): string =>
    rows
      .slice(0, count)
      .map(({ text }) => text.trim())
      .join(' ')
  const head = rows.findIndex((_, index) => upTo(index + 1).includes(place)) + 1
  const beside = rows.flatMap((row) => (row.beside === undefined ? [] : [row.beside.text]))
  const lines = [...rows.slice(0, head).map(({ text }) => text), ...beside, ...rows.slice(head).map(({ text }) => text)]
  return words(lines.filter((line) => !isCommands(line)))
}
