import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { keepAttachment } from './keep-attachment.js'

let folder: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'lockwright-attachment-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

describe('keepAttachment', () => {
  it('keeps a file under its SHA-256, once, and leaves nothing else behind', () => {
    const path = join(folder, 'seal.jpg')
    writeFileSync(path, 'abc')
    // FIPS 180-4, example of SHA-256 for the message `abc`.
    const sha256 = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'
    expect(keepAttachment({ folder }, path)).toEqual({ ok: true, name: 'seal.jpg', sha256 })
    expect(keepAttachment({ folder }, path)).toEqual({ ok: true, name: 'seal.jpg', sha256 })
    expect(readdirSync(join(folder, 'attachments'))).toEqual([sha256])
    expect(readFileSync(join(folder, 'attachments', sha256), 'utf8')).toBe('abc')
  })

  it('takes pictures, PDF and text by what they hold, whatever they are called, and nothing else', () => {
    const keep = (bytes: Buffer | string) => {
      const path = join(folder, 'seal.jpg')
      writeFileSync(path, bytes)
      return keepAttachment({ folder }, path)
    }
    // PNG (third edition) 5.2; JPEG (ITU-T T.81) annex B: SOI and the marker behind it; ISO 32000-1, 7.5.2.
    expect(keep(Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0])).ok).toBe(true)
    expect(keep(Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0])).ok).toBe(true)
    expect(keep('%PDF-1.7\n').ok).toBe(true)
    expect(keep('größe 3\n').ok).toBe(true)
    for (const bytes of [
      Buffer.from('\x7fELF\x02\x01'),
      Buffer.from([0x50, 0x4b, 3, 4, 20, 0]),
      Buffer.from([0xe9, 0x20])
    ])
      expect(keep(bytes)).toMatchObject({ ok: false, why: expect.stringContaining('no picture, no PDF and no text') })
    expect(keep('')).toMatchObject({ ok: false, why: expect.stringContaining('is empty') })
    expect(keep('a'.repeat(1_000_001))).toMatchObject({ ok: false, why: expect.stringContaining('longer than 1 MB') })
  })

  it('says what is wrong with a path, and keeps nothing', () => {
    expect(keepAttachment({ folder }, join(folder, 'none.jpg'))).toMatchObject({
      ok: false,
      why: expect.stringContaining('There is no file')
    })
    expect(keepAttachment({ folder }, folder)).toMatchObject({ ok: false, why: expect.stringContaining('not a file') })
    expect(readdirSync(folder)).toEqual([])
  })
})
