import { crc32, inflateSync } from 'node:zlib'
import { pictureLimits, type Read, refused } from './picture.js'
import { unfilter } from './unfilter.js'

/** Samples a pixel by color type (ISO/IEC 15948, table 11.1), and the bits that a sample may have there. */
const kinds: Readonly<Record<number, { readonly samples: number; readonly bits: readonly number[] }>> = {
  0: { samples: 1, bits: [1, 2, 4, 8, 16] },
  2: { samples: 3, bits: [8, 16] },
  3: { samples: 1, bits: [1, 2, 4, 8] },
  4: { samples: 2, bits: [8, 16] },
  6: { samples: 4, bits: [8, 16] }
}
const palette = 3

interface Header {
  readonly width: number
  readonly height: number
  readonly bits: number
  readonly color: number
  readonly samples: number
}

const mend = 'save it again as PNG with an image program'

/** A PNG unpacked to red, green and blue on white paper: what is transparent shows the paper. */
export function readPng(data: Buffer): Read {
  const chunks = chunksOf(data)
  if (chunks === null) return refused('it is damaged or breaks off: a check sum does not fit', mend)
  const first = chunks[0]
  if (first?.type !== 'IHDR' || first.data.length !== 13) return refused('it has no header', mend)
  const [width, height] = [first.data.readUInt32BE(0), first.data.readUInt32BE(4)]
  const [bits = 0, color = 0, , , interlace] = first.data.subarray(8)
  const kind = kinds[color]
  if (kind === undefined || !kind.bits.includes(bits)) return refused('its colors are of no known kind', mend)
  if (interlace !== 0) return refused('it is interlaced', 'save it without interlacing')
  if (width === 0 || height === 0) return refused('it has no size', mend)
  if (width * height > pictureLimits.pixels) return refused(`it has ${width} × ${height} pixels`, 'make it smaller')
  const header = { width, height, bits, color, samples: kind.samples }
  const stride = Math.ceil((width * bits * kind.samples) / 8)
  const rows = unpacked(
    Buffer.concat(chunks.filter(({ type }) => type === 'IDAT').map((each) => each.data)),
    height * (stride + 1)
  )
  if (rows === null || !unfilter(rows, stride, height, Math.max(1, (bits * kind.samples) >> 3)))
    return refused('its pixels cannot be unpacked', mend)
  const colors = chunks.find(({ type }) => type === 'PLTE')?.data
  if (color === palette && colors === undefined) return refused('its palette is missing', mend)
  const alphas = chunks.find(({ type }) => type === 'tRNS')?.data
  return {
    ok: true,
    picture: { kind: 'pixels', width, height, data: onPaper(rows, stride, header, colors, alphas) }
  }
}

function chunksOf(data: Buffer): readonly { readonly type: string; readonly data: Buffer }[] | null {
  const chunks: { type: string; data: Buffer }[] = []
  for (let at = 8; at + 12 <= data.length; ) {
    const length = data.readUInt32BE(at)
    const end = at + 8 + length
    if (end + 4 > data.length || crc32(data.subarray(at + 4, end)) !== data.readUInt32BE(end)) return null
    const type = data.toString('latin1', at + 4, at + 8)
    chunks.push({ type, data: data.subarray(at + 8, end) })
    if (type === 'IEND') return chunks
    at = end + 4
  }
  return null
}

/** Never more than the pixels take: a file that unpacks to more is refused, not unpacked. */
function unpacked(packed: Buffer, size: number): Buffer | null {
  try {
    const rows = inflateSync(packed, { maxOutputLength: size })
    return rows.length === size ? rows : null
  } catch {
    return null
  }
}

function onPaper(
  rows: Buffer,
  stride: number,
  { width, height, bits, color, samples }: Header,
  colors: Buffer | undefined,
  alphas: Buffer | undefined
): Uint8Array {
  const out = new Uint8Array(width * height * 3)
  const most = 2 ** bits - 1
  // Of deeper samples the upper byte is enough for paper.
  const sample = (row: number, index: number): number => {
    if (bits === 8) return rows[row + index] ?? 0
    if (bits === 16) return rows[row + 2 * index] ?? 0
    const bit = index * bits
    const value = ((rows[row + (bit >> 3)] ?? 0) >> (8 - bits - (bit & 7))) & most
    return color === palette ? value : Math.round((value * 255) / most)
  }
  let to = 0
  for (let y = 0; y < height; y += 1) {
    const row = y * (stride + 1) + 1
    for (let x = 0; x < width; x += 1) {
      const from = x * samples
      const own = sample(row, from)
      const grey = color === 0 || color === 4
      const [red, green, blue] =
        color === palette
          ? [colors?.[3 * own] ?? 0, colors?.[3 * own + 1] ?? 0, colors?.[3 * own + 2] ?? 0]
          : grey
            ? [own, own, own]
            : [own, sample(row, from + 1), sample(row, from + 2)]
      const alpha =
        color === palette ? (alphas?.[own] ?? 255) : color === 4 || color === 6 ? sample(row, from + samples - 1) : 255
      for (const value of [red, green, blue]) {
        out[to] = 255 - Math.round(((255 - value) * alpha) / 255)
        to += 1
      }
    }
  }
  return out
}
