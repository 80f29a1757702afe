import { wrap } from '../text/wrap.js'
import type { Size } from './frame.js'
import { type Row, row } from './row.js'

/** Below this no step can be read as it is meant. */
const least: Size = { columns: 20, rows: 10 }

export function isTooSmall({ columns, rows }: Size): boolean {
  return columns < least.columns || rows < least.rows
}

/** Says so in whatever room there is; nothing can be answered unseen. */
export function tooSmallRows({ columns, rows }: Size): readonly Row[] {
  const text = `Window too small: make it ${least.columns} by ${least.rows + 1} or more. Nothing is lost. Ctrl-C leaves.`
  return wrap(text, Math.max(1, columns))
    .flatMap((line) =>
      line.length <= columns ? [line] : (line.match(new RegExp(`.{1,${Math.max(1, columns)}}`, 'gu')) ?? [])
    )
    .slice(0, Math.max(1, rows))
    .map((line) => row(line, 'strong'))
}
