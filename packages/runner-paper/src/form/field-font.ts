import type { FormReference } from './form-writer.js'

/** What is used of an open font of the PDF library. */
export interface OpenFont {
  readonly unitsPerEm: number
  readonly ascent: number
  readonly descent: number
  /** Not every font tells it. */
  readonly capHeight?: number
  readonly bbox: { readonly minX: number; readonly minY: number; readonly maxX: number; readonly maxY: number }
  glyphForCodePoint(codePoint: number): { readonly id: number; readonly advanceWidth: number }
  createSubset(): { includeGlyph(glyph: number): number; encode(): Uint8Array }
}

const first = 0x20
const last = 0xff
const baseName = 'LWFLDS+DejaVuSans'

/** Signs by their code in WinAnsiEncoding (ISO 32000-1, annex D.2), which Windows code page 1252 equals in all it defines. */
function winAnsi(): readonly { readonly code: number; readonly codePoint: number }[] {
  const decode = new TextDecoder('windows-1252')
  return Array.from({ length: last - first + 1 }, (_, index) => {
    const code = first + index
    return { code, codePoint: decode.decode(Uint8Array.of(code)).codePointAt(0) ?? code }
  }).filter(({ codePoint }) => codePoint < 0x7f || codePoint > 0x9f)
}

/**
 * The font in which a reader sets what is typed into a field: embedded, with every sign of WinAnsiEncoding, because the
 * fonts of the page hold only what was printed. Other signs are set in a font of the reader's own.
 */
export function fieldFont(ref: (data: object) => FormReference, font: OpenFont): FormReference {
  const subset = font.createSubset()
  const scale = 1000 / font.unitsPerEm
  const widths: number[] = Array.from({ length: last - first + 1 }, () => 0)
  const glyphs = winAnsi().map(({ code, codePoint }) => {
    const glyph = font.glyphForCodePoint(codePoint)
    widths[code - first] = glyph.advanceWidth * scale
    return { codePoint, glyph: subset.includeGlyph(glyph.id) }
  })
  const file = withCharacterMap(subset.encode(), glyphs)
  const stream = ref({ Length1: file.length })
  stream.end(file)
  const { minX, minY, maxX, maxY } = font.bbox
  const descriptor = ref({
    Type: 'FontDescriptor',
    FontName: baseName,
    // ISO 32000-1, table 123: not symbolic.
    Flags: 1 << 5,
    FontBBox: [minX, minY, maxX, maxY].map((value) => Math.round(value * scale)),
    ItalicAngle: 0,
    Ascent: font.ascent * scale,
    Descent: font.descent * scale,
    CapHeight: (font.capHeight ?? font.ascent) * scale,
    StemV: 80,
    FontFile2: stream
  })
  descriptor.end()
  const dictionary = ref({
    Type: 'Font',
    Subtype: 'TrueType',
    BaseFont: baseName,
    Encoding: 'WinAnsiEncoding',
    FirstChar: first,
    LastChar: last,
    Widths: widths,
    FontDescriptor: descriptor
  })
  dictionary.end()
  return dictionary
}

type Mapped = { readonly codePoint: number; readonly glyph: number }

/** The font file with a table from Unicode to glyph, which a subset for pages does without and a simple font needs. */
function withCharacterMap(file: Uint8Array, glyphs: readonly Mapped[]): Buffer {
  const from = Buffer.from(file.buffer, file.byteOffset, file.byteLength)
  const tables = Array.from({ length: from.readUInt16BE(4) }, (_, index) => {
    const at = 12 + index * 16
    const offset = from.readUInt32BE(at + 8)
    return {
      tag: from.toString('latin1', at, at + 4),
      data: from.subarray(offset, offset + from.readUInt32BE(at + 12))
    }
  })
  const all = [...tables, { tag: 'cmap', data: characterMap(glyphs) }].sort((one, other) =>
    one.tag < other.tag ? -1 : 1
  )
  const power = Math.floor(Math.log2(all.length))
  const head = Buffer.alloc(12 + 16 * all.length)
  head.writeUInt32BE(from.readUInt32BE(0), 0)
  head.writeUInt16BE(all.length, 4)
  head.writeUInt16BE(16 * 2 ** power, 6)
  head.writeUInt16BE(power, 8)
  head.writeUInt16BE(16 * all.length - 16 * 2 ** power, 10)
  const parts: Buffer[] = [head]
  let offset = head.length
  all.forEach(({ tag, data }, index) => {
    const at = 12 + 16 * index
    const padded = Buffer.concat([data, Buffer.alloc((4 - (data.length % 4)) % 4)])
    head.write(tag, at, 'latin1')
    head.writeUInt32BE(checksum(padded), at + 4)
    head.writeUInt32BE(offset, at + 8)
    head.writeUInt32BE(data.length, at + 12)
    parts.push(padded)
    offset += padded.length
  })
  return Buffer.concat(parts)
}

function checksum(padded: Buffer): number {
  let sum = 0
  for (let at = 0; at < padded.length; at += 4) sum = (sum + padded.readUInt32BE(at)) >>> 0
  return sum
}

/** Format 4 of the `cmap` table (OpenType 1.9): stretches of code points whose glyphs follow each other as they do. */
function characterMap(glyphs: readonly Mapped[]): Buffer {
  const stretches: { first: number; last: number; delta: number }[] = []
  for (const { codePoint, glyph } of [...glyphs].sort((one, other) => one.codePoint - other.codePoint)) {
    const open = stretches.at(-1)
    const delta = (glyph - codePoint) & 0xffff
    if (open !== undefined && open.last === codePoint - 1 && open.delta === delta) open.last = codePoint
    else stretches.push({ first: codePoint, last: codePoint, delta })
  }
  stretches.push({ first: 0xffff, last: 0xffff, delta: 1 })
  const count = stretches.length
  const power = Math.floor(Math.log2(count))
  const words = [
    ...[4, 16 + 8 * count, 0, 2 * count, 2 ** (power + 1), power, 2 * count - 2 ** (power + 1)],
    ...stretches.map((each) => each.last),
    0,
    ...stretches.map((each) => each.first),
    ...stretches.map((each) => each.delta),
    ...stretches.map(() => 0)
  ]
  // One encoding: Windows, Unicode BMP, behind the header and its record.
  const table = Buffer.alloc(12 + 2 * words.length)
  table.writeUInt16BE(1, 2)
  table.writeUInt16BE(3, 4)
  table.writeUInt16BE(1, 6)
  table.writeUInt32BE(12, 8)
  words.forEach((word, index) => {
    table.writeUInt16BE(word, 12 + 2 * index)
  })
  return table
}
