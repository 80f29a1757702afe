import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { describe, expect, it } from 'vitest'
import { unpackWoff } from './unpack-woff.js'

const woff = readFileSync(
  createRequire(import.meta.url).resolve('@fontsource/dejavu-sans/files/dejavu-sans-latin-400-normal.woff')
)

/** OpenType, "Calculating Checksums": the sum of a table's 32-bit words, with `head`'s own adjustment taken as 0. */
function checksum(table: Buffer, isHead: boolean): number {
  const bytes = Buffer.alloc(Math.ceil(table.length / 4) * 4)
  table.copy(bytes)
  if (isHead) bytes.writeUInt32BE(0, 8)
  let sum = 0
  for (let at = 0; at < bytes.length; at += 4) sum = (sum + bytes.readUInt32BE(at)) >>> 0
  return sum
}

describe('unpackWoff', () => {
  it('gives every table with the checksum that the font maker wrote', () => {
    const font = Buffer.from(unpackWoff(woff))
    const count = font.readUInt16BE(4)
    expect(count).toBe(woff.readUInt16BE(12))
    const names = Array.from({ length: count }, (_, index) => font.toString('latin1', 12 + index * 16, 16 + index * 16))
    expect(names).toEqual(
      expect.arrayContaining(['OS/2', 'cmap', 'glyf', 'head', 'hhea', 'hmtx', 'loca', 'maxp', 'name', 'post'])
    )
    for (let index = 0; index < count; index += 1) {
      const at = 12 + index * 16
      const name = font.toString('latin1', at, at + 4)
      const offset = font.readUInt32BE(at + 8)
      expect([name, offset % 4]).toEqual([name, 0])
      const table = font.subarray(offset, offset + font.readUInt32BE(at + 12))
      expect([name, checksum(table, name === 'head')]).toEqual([name, font.readUInt32BE(at + 4)])
    }
  })

  it('refuses what is no WOFF', () => {
    expect(() => unpackWoff(Buffer.from('wOF2 and more'))).toThrow('no WOFF')
  })
})
