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

  it('says what is wrong with a path, and keeps nothing', () => {
    expect(keepAttachment({ folder }, join(folder, 'none.jpg'))).toMatchObject({
      ok: false,
      why: expect.stringContaining('There is no file')
    })
    expect(keepAttachment({ folder }, folder)).toMatchObject({ ok: false, why: expect.stringContaining('not a file') })
    expect(readdirSync(folder)).toEqual([])
  })
})
