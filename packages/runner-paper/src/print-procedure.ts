import type { ProvedMachine } from '@lockwright/proof'
import type { Block } from './blocks/block.js'
import { layOut } from './blocks/lay-out.js'
import { type Catalog, english } from './catalog.js'
import { flowsOf } from './draw/flows.js'
import { fontSet, readFontFiles } from './draw/font-set.js'
import { drawPageFrame } from './draw/page-frame.js'
import { type PageTexts, pageTexts } from './draw/page-texts.js'
import { paginate } from './draw/paginate.js'
import { penOf } from './draw/pen.js'
import type { Setting } from './draw/setting.js'
import { pageOf } from './draw/style.js'
import type { PrintOptions } from './print-options.js'
import { buildSheet } from './sheet/build-sheet.js'
import { printable } from './text/printable.js'
import { paragraph, say } from './text/say.js'

/**
 * The printed checklist of a proved machine as a PDF: machine, sheet, blocks, strips, pages, file. The same
 * machine and options give the same bytes. `options.for` is taken as checked (`chooseGenerations` does).
 */
export async function printProcedure(machine: ProvedMachine, options: PrintOptions): Promise<Uint8Array> {
  const catalog = english
  const sheet = buildSheet(machine, options.for)
  const generation = sheet.chosen.map(({ value }) => value.name).join(', ')
  const texts = await pageTexts(machine, generation, options, catalog)
  return drawSheet(layOut(sheet, options, catalog), texts, machine, options, catalog)
}

async function drawSheet(
  blocks: readonly Block[],
  texts: PageTexts,
  machine: ProvedMachine,
  options: PrintOptions,
  catalog: Catalog
): Promise<Uint8Array> {
  const [{ default: PDFDocument }, fontFiles] = await Promise.all([import('pdfkit'), readFontFiles()])
  const page = pageOf(options.paper)
  const made = madeAt(options)
  const document = new PDFDocument({
    size: [page.width, page.height],
    margin: 0,
    autoFirstPage: false,
    lang: machine.language,
    tagged: true,
    displayTitle: true,
    pdfVersion: '1.7',
    subset: 'PDF/UA' as 'PDF/A-1',
    // None yet: no built-in font, whose glyphs are few, is ever loaded, and the library would open one that is
    // given here again at every change of face.
    font: null as unknown as string,
    info: {
      Title: `${machine.equipment.tag}: ${machine.title}`,
      Subject: `${machine.procedure}, ${catalog.facts.revision.toLowerCase()} ${machine.revision}, ${options.digest}`,
      Author: options.issue.kind === 'issued' ? options.issue.by : catalog.draft,
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
    drawPageFrame(pen, shown.value.texts, options.issue.kind === 'draft', pages.length, setting)
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

/** The date inside the file: of printing, else of issue, else a fixed one; never the clock's. */
function madeAt({ now, issue }: PrintOptions): Date {
  const made = new Date(now ?? (issue.kind === 'issued' ? issue.at : Number.NaN))
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
