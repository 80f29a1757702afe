import { fileBytes } from './file-bytes.js'
import { type FontSet, fontSet, readFontFiles } from './font-set.js'
import { quickReferences } from './quick-references.js'

/** What a file says of itself. */
export interface FileFacts {
  /** BCP 47. */
  readonly language: string
  readonly title: string
  readonly subject: string
  readonly author: string
  /** RFC 3339; a fixed date where absent. */
  readonly made: string | undefined
}

/** A document without a page yet, with the fonts loaded, and its bytes once it is ended. */
export interface OpenDocument {
  readonly document: PDFKit.PDFDocument
  readonly fonts: FontSet
  readonly bytes: Promise<Uint8Array>
}

/** Opens a tagged file. The clock is never read: the same facts and drawing give the same bytes. */
export async function openDocument(
  page: { readonly width: number; readonly height: number },
  facts: FileFacts
): Promise<OpenDocument> {
  const [{ default: PDFDocument }, fontFiles] = await Promise.all([import('pdfkit'), readFontFiles()])
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
  const bytes = fileBytes(document)
  quickReferences(document)
  return { document, fonts: fontSet(document, fontFiles), bytes }
}

function dateOf(moment: string | undefined): Date {
  const made = new Date(moment ?? Number.NaN)
  return Number.isNaN(made.getTime()) ? new Date(0) : made
}
