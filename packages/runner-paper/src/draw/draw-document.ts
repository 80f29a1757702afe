import { namedPictures } from '@lockwright/records'
import type { Block } from '../blocks/block.js'
import type { Catalog } from '../catalog.js'
import type { LoadImage, Picture } from '../pictures/picture.js'
import type { Paper } from '../print-options.js'
import { printable } from '../text/printable.js'
import { paragraph, say } from '../text/say.js'
import { type Beside, besideFlows, besidePage } from '../translations/beside-flows.js'
import { flowsOf } from './flows.js'
import { type FileFacts, openDocument } from './open-document.js'
import { drawPageFrame } from './page-frame.js'
import type { PageTexts } from './page-texts.js'
import { paginate } from './paginate.js'
import { penOf } from './pen.js'
import type { Setting } from './setting.js'
import { pageOf } from './style.js'

/** What the file says of itself, and how the pages are. */
export interface DocumentFacts extends FileFacts {
  readonly paper: Paper
  /** True: the word stands across every page. */
  readonly draft: boolean
  /** Finds the images that the blocks name. */
  readonly images?: LoadImage
  /** Another language, set beside the blocks on pages that lie on their side. */
  readonly beside?: Beside
}

/** Blocks as a tagged PDF with the frame of texts on every page. The same input gives the same bytes. */
export async function drawDocument(
  blocks: readonly Block[],
  texts: PageTexts,
  facts: DocumentFacts,
  catalog: Catalog
): Promise<Uint8Array> {
  const { beside } = facts
  const page = beside === undefined ? pageOf(facts.paper) : besidePage(facts.paper)
  const { document, fonts, bytes } = await openDocument(page, facts)
  const shown = printable({ blocks, texts, beside: beside?.blocks ?? [] }, fonts.shows)
  const pictures = facts.images === undefined ? undefined : picturesOf(shown.value.blocks, facts.images)
  const setting: Setting = { page, metrics: fonts, catalog, ...(pictures === undefined ? {} : { pictures }) }
  const notes = missingNote(shown.missing, catalog)
  const { letterhead } = shown.value.texts
  const all = [...shown.value.blocks, ...notes]
  const flows =
    beside === undefined
      ? flowsOf(all, letterhead, setting)
      : besideFlows(all, { ...beside, blocks: shown.value.beside }, letterhead, setting)
  const pages = paginate(flows, page.height - page.top - page.bottom)
  const { pen, turn, finish } = penOf(document, fonts)
  for (const strips of pages) {
    turn()
    drawPageFrame(pen, shown.value.texts, facts.draft, pages.length, setting)
    for (const { slab, y } of strips) slab.draw(pen, page.left, page.top + y)
  }
  finish()
  document.end()
  return bytes
}

/** Whoever reads the sheet is told which characters it could not show. */
function missingNote(missing: readonly number[], { closing }: Catalog): readonly Block[] {
  if (missing.length === 0) return []
  const codes = missing.map((codePoint) => `U+${codePoint.toString(16).toUpperCase().padStart(4, '0')}`).join(', ')
  return [{ kind: 'content', content: paragraph(say(closing.missing(codes))) }]
}

function picturesOf(blocks: readonly Block[], load: LoadImage): ReadonlyMap<string, Picture> {
  const loaded = [...namedPictures(blocks)].map((source) => ({ source, image: load(source) }))
  return new Map(loaded.flatMap(({ source, image }) => (image.ok ? [[source, image.picture] as const] : [])))
}
