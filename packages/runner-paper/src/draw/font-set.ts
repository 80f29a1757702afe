import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import type { Face, Metrics } from '../text/metrics.js'
import { unpackWoff } from './unpack-woff.js'

/** The fonts of a sheet as they are embedded: one TrueType file a face, each with Latin, Greek, Cyrillic and symbols. */
export type FontFiles = Readonly<Record<Face, Uint8Array>>

const files: Readonly<Record<Face, string>> = {
  regular: 'dejavu-sans-latin-400-normal.woff',
  bold: 'dejavu-sans-latin-700-normal.woff',
  oblique: 'dejavu-sans-latin-400-italic.woff'
}

/** Reads the fonts from the installed font package. */
export async function readFontFiles(): Promise<FontFiles> {
  const require = createRequire(import.meta.url)
  const read = async (file: string): Promise<Uint8Array> =>
    unpackWoff(await readFile(require.resolve(`@fontsource/dejavu-sans/files/${file}`)))
  const [regular, bold, oblique] = await Promise.all([read(files.regular), read(files.bold), read(files.oblique)])
  return { regular, bold, oblique }
}

/** What is used of a document of the PDF library; its published types lack the open font. */
interface FontHolder {
  font(name: string): unknown
  fontSize(size: number): unknown
  widthOfString(text: string): number
  registerFont(name: string, file: Uint8Array): unknown
  readonly _font: { readonly font: { hasGlyphForCodePoint(codePoint: number): boolean } }
}

export interface FontSet extends Metrics {
  /** True where every face has a glyph for it. */
  readonly shows: (codePoint: number) => boolean
}

const faces: readonly Face[] = ['regular', 'bold', 'oblique']
const unit = 1000

/** Registers the faces under their names and measures with them. Widths are kept: sheets say the same words over and over. */
export function fontSet(document: unknown, fontFiles: FontFiles): FontSet {
  const holder = document as FontHolder
  const widths: Readonly<Record<Face, Map<string, number>>> = {
    regular: new Map(),
    bold: new Map(),
    oblique: new Map()
  }
  const fonts = faces.map((face) => {
    holder.registerFont(face, fontFiles[face])
    holder.font(face)
    return holder._font.font
  })
  return {
    width: (text, face, size) => {
      let wide = widths[face].get(text)
      if (wide === undefined) {
        holder.font(face)
        holder.fontSize(unit)
        wide = holder.widthOfString(text)
        widths[face].set(text, wide)
      }
      return (wide * size) / unit
    },
    shows: (codePoint) => fonts.every((font) => font.hasGlyphForCodePoint(codePoint))
  }
}
