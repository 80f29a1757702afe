import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { readsRightToLeft } from '../bidi/visual-pieces.js'
import type { OpenFont } from '../form/field-font.js'
import type { Face, Metrics } from '../text/metrics.js'
import { unpackWoff } from './unpack-woff.js'

/** The fonts of a sheet as they are embedded: one TrueType file a face, each with Latin, Greek, Cyrillic and symbols. */
export type FontFiles = Readonly<Record<Face, Uint8Array>>

const files: Readonly<Record<Face, string>> = {
  regular: 'dejavu-sans-latin-400-normal.woff',
  bold: 'dejavu-sans-latin-700-normal.woff',
  oblique: 'dejavu-sans-latin-400-italic.woff'
}

let read: Promise<FontFiles> | null = null

/** Reads the fonts from the installed font package, once in a process. */
export function readFontFiles(): Promise<FontFiles> {
  read ??= readAll()
  return read
}

async function readAll(): Promise<FontFiles> {
  const require = createRequire(import.meta.url)
  const readOne = async (file: string): Promise<Uint8Array> =>
    unpackWoff(await readFile(require.resolve(`@fontsource/dejavu-sans/files/${file}`)))
  const [regular, bold, oblique] = await Promise.all([
    readOne(files.regular),
    readOne(files.bold),
    readOne(files.oblique)
  ])
  return { regular, bold, oblique }
}

type Glyphs = OpenFont & { hasGlyphForCodePoint(codePoint: number): boolean }

/** A font as one document embeds it. */
interface Embedded {
  readonly id: string
  readonly font: Glyphs
  /** Glyphs and places of one word, in thousandths of its size. */
  layoutRun(word: string): Run
  readonly subset: { includeGlyph(glyph: number): number }
  readonly scale: number
  readonly widths: number[]
  readonly unicode: (readonly number[])[]
  ref(): object
}

interface Run {
  readonly advanceWidth: number
  readonly glyphs: readonly {
    readonly id: number
    readonly advanceWidth: number
    readonly codePoints: readonly number[]
  }[]
  readonly positions: readonly Position[]
}

interface Position {
  readonly xAdvance: number
  readonly advanceWidth: number
  readonly xOffset?: number
  readonly yOffset?: number
}

/** What is used of a document of the PDF library; its published types lack the open font. */
interface FontHolder {
  font(name: string): unknown
  registerFont(name: string, file: Uint8Array): unknown
  readonly _font: Embedded
  _fontCount: number
  readonly _fontFamilies: Record<string, Embedded>
}

/** Words set as the PDF's operators, and the font they are set in. */
export interface SetText {
  /** What follows the font and the place: one or more operators that show text. */
  readonly operators: string
  readonly id: string
  readonly reference: object
}

export interface FontSet extends Metrics {
  /** True where every face has a glyph for it. */
  readonly shows: (codePoint: number) => boolean
  /** The face in which fields are filled in. */
  readonly regular: OpenFont
  readonly set: (text: string, face: Face) => SetText
}

const faces: readonly Face[] = ['regular', 'bold', 'oblique']
const unit = 1000

/** A face of one document, with what lays out its words. */
interface OpenFace {
  readonly embedded: Embedded
  readonly layout: (word: string) => Run
}

/**
 * Opened faces, kept for the next document, because opening a font costs more than a page; and the words of the last
 * document as they were laid out. Words of those before it are let go: from sheet to sheet memory does not grow.
 */
interface Kept {
  readonly make: new (document: unknown, font: Glyphs, id: string) => Embedded
  readonly font: Glyphs
  words: ReadonlyMap<string, Run>
}
const kept = new Map<Face, Kept>()

/** Registers the faces under their names and measures with them. Widths are kept: sheets say the same words over and over. */
export function fontSet(document: unknown, fontFiles: FontFiles): FontSet {
  const holder = document as FontHolder
  const widths: Readonly<Record<Face, Map<string, number>>> = {
    regular: new Map(),
    bold: new Map(),
    oblique: new Map()
  }
  const texts: Readonly<Record<Face, Map<string, SetText>>> = {
    regular: new Map(),
    bold: new Map(),
    oblique: new Map()
  }
  const words: Readonly<Record<Face, Map<string, string>>> = { regular: new Map(), bold: new Map(), oblique: new Map() }
  const [regular, bold, oblique] = faces.map((face) => openFace(holder, face, fontFiles[face]))
  if (regular === undefined || bold === undefined || oblique === undefined) throw new Error('a sheet has three faces')
  const open: Readonly<Record<Face, OpenFace>> = { regular, bold, oblique }
  // The oblique face has no Arabic: what it cannot show is set upright.
  const faceFor = (text: string, face: Face): Face => (face === 'oblique' && readsRightToLeft(text) ? 'regular' : face)
  return {
    regular: regular.embedded.font,
    width: (text, wished, size) => {
      const face = faceFor(text, wished)
      let wide = widths[face].get(text)
      if (wide === undefined) {
        wide = wordsOf(text).reduce((sum, word) => sum + open[face].layout(word).advanceWidth, 0)
        widths[face].set(text, wide)
      }
      return (wide * size) / unit
    },
    shows: (codePoint) => {
      const sign = String.fromCodePoint(codePoint)
      return faces.every((face) => open[faceFor(sign, face)].embedded.font.hasGlyphForCodePoint(codePoint))
    },
    set: (text, wished) => {
      const face = faceFor(text, wished)
      let made = texts[face].get(text)
      if (made === undefined) {
        const font = open[face]
        const parts = wordsOf(text).map((word) => {
          let set = words[face].get(word)
          if (set === undefined) {
            set = partsOf(font.embedded, font.layout(word))
            words[face].set(word, set)
          }
          return set
        })
        made = { operators: `[${parts.join('')}] TJ`, id: font.embedded.id, reference: font.embedded.ref() }
        texts[face].set(text, made)
      }
      return made
    }
  }
}

/** The face of one document, on a font that may have been opened for another. */
function openFace(holder: FontHolder, face: Face, file: Uint8Array): OpenFace {
  holder.registerFont(face, file)
  const known = kept.get(face)
  const embedded = known === undefined ? firstEmbedded(holder, face) : embeddedAgain(holder, face, known)
  const before = known?.words ?? new Map<string, Run>()
  const words = new Map<string, Run>()
  // The library's class of embedded fonts has no name outside it.
  kept.set(face, { make: embedded.constructor as Kept['make'], font: embedded.font, words })
  return {
    embedded,
    layout: (word) => {
      let run = words.get(word)
      if (run === undefined) {
        run = before.get(word) ?? lean(embedded.layoutRun(word))
        words.set(word, run)
      }
      return run
    }
  }
}

function firstEmbedded(holder: FontHolder, face: Face): Embedded {
  holder.font(face)
  return holder._font
}

function embeddedAgain(holder: FontHolder, face: Face, { make: Again, font }: Kept): Embedded {
  holder._fontCount += 1
  const made = new Again(holder, font, `F${holder._fontCount}`)
  holder._fontFamilies[face] = made
  return made
}

/** Without what else the library holds with a run: its features, its scripts and the way to its width. */
function lean({ advanceWidth, glyphs, positions }: Run): Run {
  return { advanceWidth, glyphs, positions }
}

/** Words with the blank behind each: what is laid out once serves every text that says it. */
function wordsOf(text: string): readonly string[] {
  const words: string[] = []
  let from = 0
  for (let at = text.indexOf(' '); at !== -1; at = text.indexOf(' ', from)) {
    words.push(text.slice(from, at + 1))
    from = at + 1
  }
  if (from < text.length) words.push(text.slice(from))
  return words
}

/** Glyphs with what kerning takes from or adds to their widths (ISO 32000-1, 9.4.3); marks that stand off their base are moved there and back. */
function partsOf(font: Embedded, { glyphs, positions }: Run): string {
  let parts = ''
  let run = ''
  glyphs.forEach((glyph, index) => {
    const { xAdvance = 0, advanceWidth = 0, xOffset = 0 } = positions[index] ?? {}
    if (xOffset !== 0) {
      parts += `${run === '' ? '' : `<${run}>`} ${shift(-xOffset)} `
      run = ''
    }
    const id = font.subset.includeGlyph(glyph.id)
    font.widths[id] ??= glyph.advanceWidth * font.scale
    font.unicode[id] ??= glyph.codePoints
    run += id.toString(16).padStart(4, '0')
    const back = advanceWidth - xAdvance + xOffset
    if (back === 0) return
    parts += `<${run}> ${shift(back)} `
    run = ''
  })
  return run === '' ? parts : `${parts}<${run}>`
}

function shift(by: number): string {
  return String(Math.round(by * 1000) / 1000)
}
