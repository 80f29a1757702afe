import { type Read, refused } from './picture.js'
import { readDrawing } from './read-drawing.js'
import { readJpeg } from './read-jpeg.js'
import { readPng } from './read-png.js'

/** What the file is, by its first bytes and never by its name; then the whole of it is looked at. */
export function readPicture(bytes: Uint8Array): Read {
  const data = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  if (data.subarray(0, 8).equals(pngSignature)) return readPng(data)
  if (data[0] === 0xff && data[1] === 0xd8 && data[2] === 0xff) return readJpeg(data)
  if (/^\uFEFF?\s*<(?:\?xml|!--|svg[\s>])/.test(data.toString('utf8', 0, 512))) return readDrawing(data)
  return refused('it is neither PNG, JPEG nor SVG, whatever its name says', 'save it as PNG, JPEG or SVG')
}

/** ISO/IEC 15948, 5.2. */
const pngSignature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])
