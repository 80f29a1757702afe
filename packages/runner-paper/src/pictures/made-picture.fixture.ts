import { crc32, deflateSync } from 'node:zlib'

/** A PNG of the given kind, its rows unfiltered, as ISO/IEC 15948 lays it out. */
export function madePng(
  size: { readonly width: number; readonly height: number },
  color: number,
  rows: readonly (readonly number[])[],
  more: {
    readonly bits?: number
    readonly interlace?: number
    readonly chunks?: Readonly<Record<string, readonly number[]>>
  } = {}
): Buffer {
  const header = Buffer.alloc(13)
  header.writeUInt32BE(size.width, 0)
  header.writeUInt32BE(size.height, 4)
  header.set([more.bits ?? 8, color, 0, 0, more.interlace ?? 0], 8)
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', header),
    ...Object.entries(more.chunks ?? {}).map(([type, bytes]) => chunk(type, Buffer.from(bytes))),
    chunk('IDAT', deflateSync(Buffer.from(rows.flat()))),
    chunk('IEND', Buffer.alloc(0))
  ])
}

function chunk(type: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data])
  const out = Buffer.alloc(body.length + 8)
  out.writeUInt32BE(data.length, 0)
  body.copy(out, 4)
  out.writeUInt32BE(crc32(body), body.length + 4)
  return out
}

/** The markers of a JPEG as ITU-T T.81 orders them, without pixels: enough to tell its size and kind. */
export function madeJpeg(width: number, height: number, components: number): Buffer {
  const frame = Buffer.from([
    0xff,
    0xc0,
    0,
    8 + 3 * components,
    8,
    0,
    0,
    0,
    0,
    components,
    ...Array(3 * components).fill(1)
  ])
  frame.writeUInt16BE(height, 5)
  frame.writeUInt16BE(width, 7)
  return Buffer.concat([
    Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0, 4, 0, 0]),
    frame,
    Buffer.from([0xff, 0xda, 0, 2, 0xff, 0xd9])
  ])
}

export function madeDrawing(inside: string, root = 'viewBox="0 0 30 20"'): Buffer {
  return Buffer.from(`<svg xmlns="http://www.w3.org/2000/svg" ${root}>${inside}</svg>`)
}
