import type { Block } from '../blocks/block.js'
import type { Catalog } from '../catalog.js'
import type { Paper } from '../print-options.js'
import { printable } from '../text/printable.js'
import { paragraph, say } from '../text/say.js'
import { flowsOf } from './flows.js'
import { fontSet, readFontFiles } from './font-set.js'
import { drawPageFrame } from './page-frame.js'
import type { PageTexts } from './page-texts.js'
import { paginate } from './paginate.js'
import { penOf } from './pen.js'
import type { Setting } from './setting.js'
import { pageOf } from './style.js'

/** What the file says of itself. */
export interface DocumentFacts {
  readonly paper: Paper
  readonly language: string
  readonly title: string
  readonly subject: string
  readonly author: string
  /** RFC 3339; a fixed date where absent. */
  readonly made: string | undefined
  /** True: the word stands across every page. */
  readonly draft: boolean
}

/** Blocks as a tagged PDF with the frame of texts on every page. The same input gives the same bytes. */
export async function drawDocument(
  blocks: readonly Block[],
  texts: PageTexts,
  facts: DocumentFacts,
  catalog: Catalog
): Promise<Uint8Array> {
  const [{ default: PDFDocument }, fontFiles] = await Promise.all([import('pdfkit'), readFontFiles()])
  const page = pageOf(facts.paper)
  const made = dateOf(facts.made)
  const document = new PDFDocument({
    size: [page.width, page.height],
    margin: 0,
    autoFirstPage: false,
    lang: facts.language,
    tagged: true,
    displayTitle: true,
    pdfVersion: '1.7',
    subset: 'PDF/UA' as 'PDF/A-1',
    // None yet: no built-in font, whose glyphs are few, is ever loaded, and the library would open one that is
    // given here again at every change of face.
    font: null as unknown as string,
    info: {
      Title: facts.title,
      Subject: facts.subject,
      Author: facts.author,
      Creator: 'lockwright',
      Producer: 'lockwright',
      CreationDate: made,
      ModDate: made
    }
  })
  const bytes = collected(document)
  const fonts = fontSet(document, fontFiles)
  const shown = printable({ blocks, texts }, fonts.shows)
  const setting: Setting = { page, metrics: fonts, catalog }
  const notes = missingNote(shown.missing, catalog)
  const flows = flowsOf([...shown.value.blocks, ...notes], shown.value.texts.letterhead, setting)
  const pages = paginate(flows, page.height - page.top - page.bottom)
  const { pen, turn, finish } = penOf(document)
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

function dateOf(moment: string | undefined): Date {
  const made = new Date(moment ?? Number.NaN)
  return Number.isNaN(made.getTime()) ? new Date(0) : made
}

/** The library reports an unfinished structure tree by never ending: the last chunk must be seen. */
function collected(document: PDFKit.PDFDocument): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = []
    document.on('data', (chunk: Uint8Array) => chunks.push(chunk))
    document.on('error', reject)
    document.on('end', () => resolve(Buffer.concat(chunks)))
  })
}
