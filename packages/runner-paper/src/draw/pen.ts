import type { Line } from '../text/break-lines.js'
import type { Face } from '../text/metrics.js'
import { leading, type } from './style.js'
import type { Tag } from './tag.js'

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
  /** An entry of the bookmarks at this height of the page. */
  readonly bookmark: (level: number, text: string, y: number) => void
}

export interface Paint {
  readonly fill?: string
  readonly stroke?: string
  readonly weight?: number
  readonly dash?: number
  /** Paths only: joined back to the beginning. */
  readonly closed?: boolean
}

const unitsAnEm = 2048

/** Where the signs lie in the font's own units, so that they can be put exactly where a box is wanted. */
const ticks = {
  box: { sign: '\u2610', left: 184, bottom: 0, height: 1493 },
  circle: { sign: '\u25CB', left: 112, bottom: -257, height: 1578 }
} as const

interface Element {
  readonly element: PDFKit.PDFStructureElement
}

/** Makes the pen of one document. `turn` begins the next page; `finish` closes the structure tree. */
export function penOf(document: PDFKit.PDFDocument): {
  readonly pen: Pen
  readonly turn: () => void
  readonly finish: () => void
} {
  const elements = new Map<Tag, Element>()
  const root = document.struct('Document')
  document.addStructure(root)
  const bookmarks: PDFKit.PDFOutline[] = []
  // Without this the bookmarks' root bears no count, which strict readers refuse.
  const outline = document.outline as unknown as { options: object }
  outline.options = { ...outline.options, expanded: true }
  let page = 0

  const elementOf = (node: Tag): PDFKit.PDFStructureElement => {
    const known = elements.get(node)
    if (known !== undefined) return known.element
    const { bbox, ...options } = node.options
    const element = document.struct(node.type, {
      ...options,
      ...(bbox === undefined ? {} : { bbox: [...bbox], placement: 'Block' })
    })
    const parent = node.parent === null ? root : elementOf(node.parent)
    parent.add(element)
    elements.set(node, { element })
    return element
  }
  const paint = ({ fill, stroke, weight = 0.75, dash }: Paint): void => {
    document.lineWidth(weight)
    if (dash === undefined) document.undash()
    else document.dash(dash, { space: dash })
    if (fill !== undefined && stroke !== undefined) document.fillAndStroke(fill, stroke)
    else if (fill !== undefined) document.fill(fill)
    else document.stroke(stroke ?? '#000000')
  }
  const set = (text: string, x: number, baseline: number, size: number, face: Face, color: string): void => {
    document.font(face).fontSize(size).fillColor(color)
    document.text(text, x, baseline, { lineBreak: false, baseline: 'alphabetic' })
  }
  const pen: Pen = {
    get page() {
      return page
    },
    under: (node, draw) => {
      const element = elementOf(node)
      const content = document.markStructureContent(node.type)
      draw()
      document.endMarkedContent()
      element.add(content)
    },
    decor: (draw) => {
      document.markContent('Artifact', { type: 'Layout' })
      draw()
      document.endMarkedContent()
    },
    lines: (lines, x, y, size, color = '#000000') => {
      lines.forEach((line, index) => {
        const baseline = y + index * leading(size) + size
        // The blank at the end keeps the words of two lines apart when they are read out.
        const end = index < lines.length - 1 ? ' ' : ''
        line.segments.forEach((segment, at) => {
          const text = at === line.segments.length - 1 ? segment.text + end : segment.text
          set(text, x + segment.x, baseline, size, segment.face, color)
        })
      })
    },
    label: (text, x, y, size, face = 'regular', color = '#000000') => set(text, x, y + size, size, face, color),
    tick: (shape, x, y, size) => {
      const { sign, left, bottom, height } = ticks[shape]
      const em = (size * unitsAnEm) / height
      set(`${sign} `, x - (left * em) / unitsAnEm, y + size + (bottom * em) / unitsAnEm, em, 'regular', '#000000')
    },
    path: (points, { closed = false, ...how }) => {
      points.forEach(([x, y], index) => {
        if (index === 0) document.moveTo(x, y)
        else document.lineTo(x, y)
      })
      if (closed) document.closePath()
      paint(how)
    },
    rectangle: (x, y, width, height, how) => {
      document.rect(x, y, width, height)
      paint(how)
    },
    disc: (x, y, radius, how) => {
      document.circle(x, y, radius)
      paint(how)
    },
    turned: (degrees, x, y, draw) => {
      document.save()
      document.rotate(degrees, { origin: [x, y] })
      draw()
      document.restore()
    },
    bookmark: (level, text, y) => {
      const parent = bookmarks.slice(0, level).findLast((each) => each !== undefined) ?? document.outline
      const place = { left: document.page.width, top: Math.max(0, y - type.body), expanded: level < 2 }
      bookmarks.length = level
      bookmarks[level] = parent.addItem(text, place)
    }
  }
  return {
    pen,
    turn: () => {
      document.addPage()
      page += 1
    },
    finish: () => root.end()
  }
}
