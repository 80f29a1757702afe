import type { Runs } from '@lockwright/language'
import type { Catalog } from '../catalog.js'
import type { Picture } from '../pictures/picture.js'
import { breakLines, type Line } from '../text/break-lines.js'
import type { Face, Metrics } from '../text/metrics.js'
import type { Slab } from './slab.js'
import { leading, type Page } from './style.js'
import type { Tag } from './tag.js'

/** What setting a sheet takes: the page, the fonts' widths, the fixed wording. */
export interface Setting {
  readonly page: Page
  readonly metrics: Metrics
  readonly catalog: Catalog
  /** By source, the pictures that may be printed; absent where nobody looked for any. */
  readonly pictures?: ReadonlyMap<string, Picture>
}

/** Longer paragraphs are cut into strips of so many lines, so that any text can be broken between pages. */
const linesAStrip = 12

export function setLines(
  runs: Runs,
  width: number,
  size: number,
  { metrics }: Setting,
  base: Face = 'regular'
): readonly Line[] {
  return breakLines(runs, width, size, metrics, base)
}

/** Lines as strips under one node. */
export function lineSlabs(lines: readonly Line[], size: number, node: Tag, after: number): readonly Slab[] {
  const slabs: Slab[] = []
  for (let at = 0; at < lines.length; at += linesAStrip) {
    const strip = lines.slice(at, at + linesAStrip)
    const rest = at + linesAStrip >= lines.length ? after : 0
    slabs.push({
      height: strip.length * leading(size) + rest,
      draw: (pen, x, y) => pen.under(node, () => pen.lines(strip, x, y, size))
    })
  }
  return slabs
}

/** The same strip further to the right. */
export function indented(slab: Slab, by: number): Slab {
  return { height: slab.height, draw: (pen, x, y) => slab.draw(pen, x + by, y) }
}
