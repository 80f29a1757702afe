import { labelSegments } from '../bidi/turned-line.js'
import { readsRightToLeft } from '../bidi/visual-pieces.js'
import { fieldFont } from '../form/field-font.js'
import type { FormField } from '../form/form-field.js'
import { type FieldBox, type FormDocument, type FormReference, formWriter } from '../form/form-writer.js'
import type { Picture } from '../pictures/picture.js'
import type { Line } from '../text/break-lines.js'
import type { Face } from '../text/metrics.js'
import type { FontSet } from './font-set.js'
import { pictureDrawer } from './picture-drawer.js'
import { circle, inkOf, type Paint, painted, pathOf, round } from './strokes.js'
import { leading, type } from './style.js'
import { type Tag, tag } from './tag.js'

export type { Paint }

/** Draws on the current page: text and fields under a node of the structure tree, everything else as decoration. */
export interface Pen {
  /** Which page, from 1. */
  readonly page: number
  /** Everything that `draw` puts down is read out as part of the node. */
  readonly under: (node: Tag, draw: () => void) => void
  /** Rules, frames and fills: not read out. */
  readonly decor: (draw: () => void) => void
  /** Lines one under the other; `y` is the upper edge of the first. */
  readonly lines: (lines: readonly Line[], x: number, y: number, size: number, color?: string) => void
  /** One line of plain text. */
  readonly label: (text: string, x: number, y: number, size: number, face?: Face, color?: string) => void
  /** A box to tick, as a sign of the font, so that it is read out as an empty box. */
  readonly tick: (shape: 'box' | 'circle', x: number, y: number, size: number) => void
  readonly path: (points: readonly (readonly [number, number])[], paint: Paint) => void
  readonly rectangle: (x: number, y: number, width: number, height: number, paint: Paint) => void
  readonly disc: (x: number, y: number, radius: number, paint: Paint) => void
  /** What `draw` puts down is turned by so many degrees about a point. */
  readonly turned: (degrees: number, x: number, y: number, draw: () => void) => void
  readonly picture: (picture: Picture, x: number, y: number, width: number, height: number) => void
  /** An entry of the bookmarks at this height of the page. */
  readonly bookmark: (level: number, text: string, y: number) => void
  /** A place to fill in, read out as part of the node; nothing where the field is not named. `passes`: of how many it is one. */
  readonly field: (node: Tag, field: FormField | undefined, box: FieldBox, pass?: number, passes?: number) => void
  /** A name for this height of the page, to which links go. */
  readonly anchor: (name: string, y: number) => void
  /** What `draw` puts down leads to a named place, from all of the box; `told` is what is read out of it. */
  readonly link: (node: Tag, to: string, told: string, box: FieldBox, draw: () => void) => void
}

const unitsAnEm = 2048

/** Where the signs lie in the font's own units, so that they can be put exactly where a box is wanted. */
const ticks = {
  box: { sign: '\u2610', left: 184, bottom: 0, height: 1493 },
  circle: { sign: '\u25CB', left: 112, bottom: -257, height: 1578 }
} as const

/** The library's class of content that is read out has no name outside it. */
type MadeContent = new (page: unknown, content: number) => PDFKit.PDFStructureContent

/** What is used of a document of the PDF library; its published types lack the open parts. */
type OpenDocument = Omit<FormDocument, 'page'> & {
  addContent: (content: string) => unknown
  getStructParentTree(): { get(key: number): unknown[] }
  readonly page: FormDocument['page'] & {
    readonly fonts: Record<string, unknown>
    readonly markings: unknown[]
    readonly dictionary: unknown
    readonly structParentTreeKey: number
    write(content: Uint8Array): void
  }
}

/** Makes the pen of one document. `turn` begins the next page; `finish` closes the structure tree. */
export function penOf(
  document: PDFKit.PDFDocument,
  fonts: FontSet
): {
  readonly pen: Pen
  readonly turn: () => void
  readonly finish: () => void
} {
  const elements = new Map<Tag, PDFKit.PDFStructureElement>()
  const open = document as unknown as OpenDocument
  const form = formWriter(open, (): FormReference => fieldFont((data) => open.ref(data), fonts.regular))
  const root = document.struct('Document')
  document.addStructure(root)
  let Content: MadeContent | null = null
  const bookmarks: PDFKit.PDFOutline[] = []
  // Without this the bookmarks' root bears no count, which strict readers refuse.
  const outline = document.outline as unknown as { options: object }
  outline.options = { ...outline.options, expanded: true }
  let page = 0
  // What is drawn goes into the file page by page: a call of the library for each stroke would cost more than the strokes.
  let strokes: string[] = []
  open.addContent = (content) => {
    strokes.push(content)
    return open
  }
  const flush = (): void => {
    if (strokes.length > 0) open.page.write(Buffer.from(`${strokes.join('\n')}\n`, 'latin1'))
    strokes = []
  }

  const elementOf = (node: Tag): PDFKit.PDFStructureElement => {
    const known = elements.get(node)
    if (known !== undefined) return known
    const { bbox, ...options } = node.options
    const element = document.struct(node.type, {
      ...options,
      ...(bbox === undefined ? {} : { bbox: [...bbox], placement: 'Block' })
    })
    const parent = node.parent === null ? root : elementOf(node.parent)
    parent.add(element)
    elements.set(node, element)
    return element
  }
  /** Opens content that is read out; by the library once, which knows the class of what it gives, and then by ourselves. */
  const marked = (type: string): PDFKit.PDFStructureContent => {
    if (Content === null) {
      const content = document.markStructureContent(type)
      Content = content.constructor as MadeContent
      open.page.markings.pop()
      return content
    }
    const { dictionary, structParentTreeKey } = open.page
    const parents = open.getStructParentTree().get(structParentTreeKey)
    open.addContent(`/${type} <</MCID ${parents.length}>> BDC`)
    parents.push(null)
    return new Content(dictionary, parents.length - 1)
  }
  const set = (text: string, x: number, baseline: number, size: number, face: Face, color: string): void => {
    if (text === '') return
    const { operators, id, reference } = fonts.set(text, face)
    open.page.fonts[id] ??= reference
    // The page is turned upside down by the library: down is up for everything but letters.
    open.addContent(
      `${inkOf(color)} rg BT /${id} ${round(size)} Tf 1 0 0 -1 ${round(x)} ${round(baseline)} Tm ${operators} ET`
    )
  }
  const pen: Pen = {
    get page() {
      return page
    },
    under: (node, draw) => {
      const element = elementOf(node)
      const content = marked(node.type)
      draw()
      open.addContent('EMC')
      element.add(content)
    },
    decor: (draw) => {
      // Never within what is read out, and never left open: the library need not keep account of it.
      open.addContent('/Artifact <</Type /Layout>> BDC')
      draw()
      open.addContent('EMC')
    },
    lines: (lines, x, y, size, color = '#000000') => {
      lines.forEach((line, index) => {
        const baseline = y + index * leading(size) + size
        // The blank at the end keeps the words of two lines apart when they are read out.
        const end = index < lines.length - 1 ? ' ' : ''
        line.segments.forEach((segment, at) => {
          // A blank behind a right-to-left word would be set before it.
          const last = at === line.segments.length - 1 && !readsRightToLeft(segment.text)
          const text = last ? segment.text + end : segment.text
          set(text, x + segment.x, baseline, size, segment.face, color)
        })
      })
    },
    label: (text, x, y, size, face = 'regular', color = '#000000') => {
      for (const part of labelSegments(text, face, size, fonts))
        set(part.text, x + part.x, y + size, size, part.face, color)
    },
    tick: (shape, x, y, size) => {
      const { sign, left, bottom, height } = ticks[shape]
      const em = (size * unitsAnEm) / height
      set(`${sign} `, x - (left * em) / unitsAnEm, y + size + (bottom * em) / unitsAnEm, em, 'regular', '#000000')
    },
    path: (points, paint) => open.addContent(painted(pathOf(points, paint.closed === true), paint)),
    rectangle: (x, y, width, height, paint) =>
      open.addContent(painted(`${round(x)} ${round(y)} ${round(width)} ${round(height)} re`, paint)),
    disc: (x, y, radius, paint) => open.addContent(painted(circle(x, y, radius), paint)),
    turned: (degrees, x, y, draw) => {
      document.save()
      document.rotate(degrees, { origin: [x, y] })
      draw()
      document.restore()
    },
    picture: pictureDrawer(document),
    bookmark: (level, text, y) => {
      const parent = bookmarks.slice(0, level).findLast((each) => each !== undefined) ?? document.outline
      const place = { left: document.page.width, top: Math.max(0, y - type.body), expanded: level < 2 }
      bookmarks.length = level
      bookmarks[level] = parent.addItem(text, place)
    },
    field: (node, field, box, pass = 1, passes = 1) => {
      if (field === undefined) return
      const element = elementOf(tag('Form', node))
      form.place(field, pass, passes, box, element)
      // Closed on its own page: the library notes the page that is open when it closes.
      element.end()
    },
    anchor: (name, y) => document.addNamedDestination(name, 'XYZ', 0, Math.max(0, y - type.body), 0),
    link: (node, to, told, { x, y, width, height }, draw) => {
      const under = tag('Link', node)
      pen.under(under, draw)
      const element = elementOf(under)
      const contents = new String(told)
      open.annotate(x, y, width, height, { Subtype: 'Link', Dest: to, Contents: contents, structParent: element })
      element.end()
    }
  }
  return {
    pen,
    turn: () => {
      flush()
      document.addPage()
      page += 1
    },
    finish: () => {
      flush()
      root.end()
    }
  }
}
