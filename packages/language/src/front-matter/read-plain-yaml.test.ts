import { readdirSync, readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { Faults } from '../faults.js'
import { SourceText } from '../source-text.js'
import { readPlainYaml } from './read-plain-yaml.js'
import { readAnyYaml } from './read-yaml.js'
import type { YamlMapping } from './yaml-tree.js'

function byLibrary(text: string): YamlMapping | undefined {
  return readAnyYaml(text, 0, new SourceText('x', text), new Faults())
}

const texts = ['accepted', 'refused'].flatMap((folder) => {
  const path = new URL(`../../fixtures/${folder}/`, import.meta.url)
  return readdirSync(path)
    .filter((name) => name.endsWith('.md'))
    .map((name) => readFileSync(new URL(name, path), 'utf8'))
})
const frontMatters = [...new Set(texts.flatMap((text) => /^---\n([\s\S]*?\n)---\n/.exec(text)?.[1] ?? []))]

describe('front matter written as nearly all is', () => {
  it('is what nearly all of the fixtures have', () => {
    const plain = frontMatters.filter((text) => readPlainYaml(text, 0) !== undefined)
    expect(plain.length).toBeGreaterThan(frontMatters.length * 0.75)
  })

  it('is read as the YAML library reads it', () => {
    for (const text of frontMatters) {
      const plain = readPlainYaml(text, 0)
      if (plain !== undefined) expect(plain).toEqual(byLibrary(text))
    }
  })

  it('is read as the library reads it, or left to it, after any change', () => {
    const bits = fc.constantFrom(
      ' ',
      '  ',
      '\n',
      ':',
      ': ',
      '#',
      ' #',
      '- ',
      '{',
      '}',
      '[',
      ']',
      ',',
      '"',
      "'",
      'a',
      '1',
      'é',
      '°',
      '&a ',
      '*a',
      '!x ',
      '|',
      '>',
      '\n  ',
      '%',
      '@',
      '~',
      'null',
      '  b: c\n',
      '?',
      '\\',
      '=',
      '<<: ',
      '±',
      '...',
      '---',
      '\t',
      '\r',
      '\u00a0',
      '\u2028',
      ''
    )
    const change = fc.record({ at: fc.nat(400), remove: fc.nat(4), insert: bits })
    let taken = 0
    fc.assert(
      fc.property(
        fc.constantFrom(...frontMatters),
        fc.nat(30),
        fc.integer({ min: 1, max: 8 }),
        fc.array(change, { minLength: 1, maxLength: 3 }),
        (text, first, count, changes) => {
          let lines = text
            .split('\n')
            .slice(first, first + count)
            .join('\n')
          const indent = /^ */.exec(lines)?.[0] ?? ''
          lines = lines.replaceAll(`\n${indent}`, '\n').slice(indent.length)
          for (const { at, remove, insert } of changes) {
            const start = at % (lines.length + 1)
            lines = lines.slice(0, start) + insert + lines.slice(start + remove)
          }
          const plain = readPlainYaml(lines, 0)
          if (plain === undefined) return
          taken += 1
          expect(plain).toEqual(byLibrary(lines))
        }
      ),
      { seed: 20_261_125, numRuns: 5000 }
    )
    // A property that the plain reader never takes part in would say nothing.
    expect(taken).toBeGreaterThan(300)
  })

  it('leaves to the library what it must not read itself', () => {
    for (const text of [
      'a: *b\n',
      'a: &b c\n',
      'a: |\n  b\n',
      'a: b\n  c\n',
      '- a\n',
      'a:\n  - b\n',
      'a: !x b\n',
      'a: "b\\n"\n',
      "a: 'b''c'\n",
      'a: b: c\n',
      '? a\n: b\n',
      'a: {b: [\n c]}\n',
      'a: -1\n',
      'a:\n- b\n',
      '"a": b\n',
      'a: {b}\n',
      '%YAML 1.2\n',
      `a: ${'['.repeat(30)}${']'.repeat(30)}\n`,
      `${Array.from({ length: 30 }, (_, at) => `${' '.repeat(at)}a:\n`).join('')}`,
      ''
    ]) {
      expect(readPlainYaml(text, 0)).toBeUndefined()
    }
  })
})
