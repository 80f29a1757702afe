import { pictureLimits, type Read, refused } from './picture.js'

/** Start of frame: baseline, extended and progressive, with Huffman coding (ITU-T T.81, table B.1). */
const frames: ReadonlySet<number> = new Set([0xc0, 0xc1, 0xc2])
const endOfImage = 0xd9
const startOfScan = 0xda

/** The size and the kind of a JPEG, from its markers. The PDF holds it as it is. */
export function readJpeg(data: Buffer): Read {
  const mend = 'save it again as JPEG or PNG with an image program'
  const end = data.lastIndexOf(Buffer.from([0xff, endOfImage]))
  if (end === -1) return refused('it breaks off: a JPEG has an end', mend)
  let at = 2
  while (at + 9 < data.length) {
    if (data[at] !== 0xff) break
    const marker = data[at + 1] ?? 0
    if (marker === 0xff) {
      at += 1
      continue
    }
    if (marker === startOfScan) break
    const length = data.readUInt16BE(at + 2)
    if (frames.has(marker)) return frameOf(data, at + 4, mend)
    at += 2 + length
  }
  return refused('it holds no image that can be read', mend)
}

function frameOf(data: Buffer, at: number, mend: string): Read {
  const [bits, height, width, components] = [
    data.readUInt8(at),
    data.readUInt16BE(at + 1),
    data.readUInt16BE(at + 3),
    data.readUInt8(at + 5)
  ]
  if (bits !== 8 || (components !== 1 && components !== 3))
    return refused('it is neither grey nor red, green and blue at 8 bits', 'save it as a usual RGB picture')
  if (width === 0 || height === 0) return refused('it has no size', mend)
  if (width * height > pictureLimits.pixels) return refused(`it has ${width} × ${height} pixels`, 'make it smaller')
  return { ok: true, picture: { kind: 'jpeg', width, height, components, data } }
}
