import { inflateSync } from 'node:zlib'

/** Sizes in bytes, after the W3C recommendation WOFF File Format 1.0, sections 4 and 5. */
const woffHeader = 44
const woffEntry = 20
const sfntHeader = 12
const sfntEntry = 16
const signature = 0x774f4646

/**
 * The TrueType file inside a WOFF 1.0 file. The PDF library would inflate a table of a WOFF again for every
 * glyph that it looks at; a plain file is read at once.
 */
export function unpackWoff(woff: Uint8Array): Uint8Array {
  const from = Buffer.from(woff.buffer, woff.byteOffset, woff.byteLength)
  if (from.readUInt32BE(0) !== signature) throw new Error('the font package holds no WOFF 1.0 file under this name')
  const tables = Array.from({ length: from.readUInt16BE(12) }, (_, index) => {
    const at = woffHeader + index * woffEntry
    const [offset, packed, length] = [from.readUInt32BE(at + 4), from.readUInt32BE(at + 8), from.readUInt32BE(at + 12)]
    const bytes = from.subarray(offset, offset + packed)
    return {
      tag: from.subarray(at, at + 4),
      checksum: from.readUInt32BE(at + 16),
      data: packed < length ? inflateSync(bytes) : bytes
    }
  })
  const count = tables.length
  const start = sfntHeader + count * sfntEntry
  const out = Buffer.alloc(start + tables.reduce((sum, { data }) => sum + padded(data.length), 0))
  const power = 2 ** Math.floor(Math.log2(count))
  out.writeUInt32BE(from.readUInt32BE(4), 0)
  out.writeUInt16BE(count, 4)
  out.writeUInt16BE(power * sfntEntry, 6)
  out.writeUInt16BE(Math.log2(power), 8)
  out.writeUInt16BE((count - power) * sfntEntry, 10)
  let offset = start
  tables.forEach(({ tag, checksum, data }, index) => {
    const at = sfntHeader + index * sfntEntry
    tag.copy(out, at)
    out.writeUInt32BE(checksum, at + 4)
    out.writeUInt32BE(offset, at + 8)
    out.writeUInt32BE(data.length, at + 12)
    data.copy(out, offset)
    offset += padded(data.length)
  })
  return out
}

/** Tables begin at multiples of four bytes. */
function padded(length: number): number {
  return Math.ceil(length / 4) * 4
}
