import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { expandFiles } from './expand-files.js'

let folder: string

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'lockwright-'))
  mkdirSync(join(folder, 'deeper'))
  mkdirSync(join(folder, '.hidden'))
  for (const name of ['b.md', 'a.md', 'README.md', 'notes.txt', 'deeper/c.md', '.hidden/d.md'])
    writeFileSync(join(folder, name), '')
})

afterEach(() => rmSync(folder, { recursive: true }))

describe('expandFiles', () => {
  it('takes a folder as the Markdown files in it and below, in order; hidden ones and a README are left out', () => {
    expect(expandFiles([folder])).toEqual(['a.md', 'b.md', 'deeper/c.md'].map((name) => join(folder, name)))
  })

  it('leaves a named file as it is, whatever its name and whether or not it exists, and takes each once', () => {
    const named = join(folder, 'README.md')
    expect(expandFiles([named, 'missing.md', named])).toEqual([named, 'missing.md'])
  })
})
