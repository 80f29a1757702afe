import { createRequire } from 'node:module'
import type { FormReference } from '../form/form-writer.js'
import type { Picture } from '../pictures/picture.js'

/** Draws an SVG at a place of the document; it throws where the text cannot be understood. */
export type DrawDrawing = (
  document: PDFKit.PDFDocument,
  svg: string,
  x: number,
  y: number,
  options: {
    readonly width: number
    readonly height: number
    readonly preserveAspectRatio: string
    readonly assumePt: boolean
    readonly fontCallback: (family: string, bold: boolean, italic: boolean) => string
    readonly imageCallback: () => string
    readonly documentCallback: () => undefined
    readonly warningCallback: () => void
  }
) => void

/** The library for SVG, opened only where there is one; it has no types of its own. */
function openDrawings(): DrawDrawing {
  return createRequire(import.meta.url)('svg-to-pdfkit') as DrawDrawing
}

/** What is used of a document of the PDF library; its published types lack it. */
interface PictureDocument {
  ref(data: object): FormReference
  readonly page: { readonly xobjects: Record<string, unknown> }
  save(): unknown
  restore(): unknown
  transform(a: number, b: number, c: number, d: number, e: number, f: number): unknown
  addContent(content: string): unknown
}

/** Puts pictures on the page; each is in the file once, however often it is shown. */
export function pictureDrawer(
  document: PDFKit.PDFDocument
): (picture: Picture, x: number, y: number, width: number, height: number) => void {
  let drawDrawing: DrawDrawing | null = null
  const open = document as unknown as PictureDocument
  const placed = new Map<Picture, { readonly name: string; readonly reference: FormReference }>()
  const placedOf = (picture: Exclude<Picture, { kind: 'drawing' }>) => {
    const known = placed.get(picture)
    if (known !== undefined) return known
    const grey = picture.kind === 'jpeg' && picture.components === 1
    const reference = open.ref({
      Type: 'XObject',
      Subtype: 'Image',
      Width: picture.width,
      Height: picture.height,
      BitsPerComponent: 8,
      ColorSpace: grey ? 'DeviceGray' : 'DeviceRGB',
      ...(picture.kind === 'jpeg' ? { Filter: 'DCTDecode' } : {})
    })
    reference.end(picture.data)
    const made = { name: `Picture${placed.size + 1}`, reference }
    placed.set(picture, made)
    return made
  }
  return (picture, x, y, width, height) => {
    if (picture.kind === 'drawing') {
      drawDrawing ??= openDrawings()
      drawDrawing(document, picture.text, x, y, {
        width,
        height,
        preserveAspectRatio: 'xMidYMid meet',
        assumePt: true,
        fontCallback: (_, bold, italic) => (bold ? 'bold' : italic ? 'oblique' : 'regular'),
        // A drawing that reached this place names nothing outside itself.
        imageCallback: () => '',
        documentCallback: () => undefined,
        warningCallback: () => {}
      })
      return
    }
    const { name, reference } = placedOf(picture)
    open.page.xobjects[name] = reference
    open.save()
    open.transform(width, 0, 0, -height, x, y + height)
    open.addContent(`/${name} Do`)
    open.restore()
  }
}
