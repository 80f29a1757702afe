import type { Block } from '../blocks/block.js'
import type { Catalog } from '../catalog.js'
import { flowsOf } from '../draw/flows.js'
import { openDocument } from '../draw/open-document.js'
import { drawPageFrame } from '../draw/page-frame.js'
import type { PageTexts } from '../draw/page-texts.js'
import { paginate } from '../draw/paginate.js'
import { penOf } from '../draw/pen.js'
import type { Setting } from '../draw/setting.js'
import type { Flow } from '../draw/slab.js'
import { pageOf } from '../draw/style.js'
import type { Paper } from '../print-options.js'
import { printable } from '../text/printable.js'
import { chartFlow } from './chart-flow.js'
import type { ReportBlock } from './report-block.js'

export interface ReportFacts {
  readonly paper: Paper
  readonly title: string
  readonly subject: string
  /** RFC 3339. */
  readonly made: string
}

/** A report as a tagged PDF. The same blocks and facts give the same bytes. */
export async function drawReport(
  blocks: readonly ReportBlock[],
  texts: PageTexts,
  facts: ReportFacts,
  catalog: Catalog
): Promise<Uint8Array> {
  const page = pageOf(facts.paper)
  const file = { language: 'en', author: 'lockwright', ...facts }
  const { document, fonts, bytes } = await openDocument(page, file)
  const { value } = printable({ blocks, texts }, fonts.shows)
  const setting: Setting = { page, metrics: fonts, catalog }
  const pages = paginate(
    reportFlows(value.blocks, value.texts.letterhead, setting),
    page.height - page.top - page.bottom
  )
  const { pen, turn, finish } = penOf(document, fonts)
  for (const strips of pages) {
    turn()
    drawPageFrame(pen, value.texts, false, pages.length, setting)
    for (const { slab, y } of strips) slab.draw(pen, page.left, page.top + y)
  }
  finish()
  document.end()
  return bytes
}

/** Blocks that follow each other are measured together: how they keep to each other depends on what is next. */
function reportFlows(blocks: readonly ReportBlock[], letterhead: string, setting: Setting): readonly Flow[] {
  const flows: Flow[] = []
  let plain: Block[] = []
  const settle = (): void => {
    flows.push(...flowsOf(plain, letterhead, setting))
    plain = []
  }
  for (const block of blocks) {
    if (block.kind !== 'chart') plain.push(block)
    else {
      settle()
      flows.push(chartFlow(block.chart, setting))
    }
  }
  settle()
  return flows
}
