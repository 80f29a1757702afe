import { readdirSync, readFileSync } from 'node:fs'
import type { Root } from 'mdast'
import { describe, expect, it } from 'vitest'
import { Faults } from '../faults.js'
import { findFrontMatter } from '../front-matter/find-front-matter.js'
import { scanSource } from '../scan/scan-source.js'
import { SourceText } from '../source-text.js'
import { parseMarkdown } from './markdown-parser.js'
import { parseParts } from './parse-parts.js'

function read(text: string): { readonly parts: number; readonly tree: Root } {
  const source = new SourceText('x', text)
  const faults = new Faults()
  const { parts } = scanSource(source, findFrontMatter(source, faults)?.next ?? 1, faults)
  expect(faults.sorted()).toBeUndefined()
  return { parts: parts.length, tree: parseParts(parts) }
}

const folder = new URL('../../fixtures/accepted/', import.meta.url)
const names = readdirSync(folder).filter((name) => name.endsWith('.md'))

describe('a text that is parsed in parts', () => {
  it.each(names)('gives the tree of the whole, places included: %s', (name) => {
    const text = readFileSync(new URL(name, folder), 'utf8').replace(/^\ufeff/, '')
    expect(read(text).tree.children).toEqual(parseMarkdown(text).children)
  })

  it('gives the tree of the whole where it is long', () => {
    const text = readFileSync(new URL('booster-pump.md', folder), 'utf8')
    const body = text.slice(text.indexOf('\n---\n') + 5)
    const long = text + body.repeat(3)
    const { parts, tree } = read(long)
    expect(parts).toBeGreaterThan(8)
    expect(tree.children).toEqual(parseMarkdown(long).children)
  })
})
