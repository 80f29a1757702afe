import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import type { Diagnostic } from './diagnostic.js'
import { parseProcedure } from './parse-procedure.js'
import { SourceText } from './source-text.js'

const folder = new URL('../fixtures/refused/', import.meta.url)
const cases = readdirSync(folder)
  .filter((name) => name.endsWith('.md'))
  .map((name) => name.slice(0, -3))

/** What each case must be refused for, written by hand. */
const expected = new Map(
  readFileSync(new URL('expected.txt', folder), 'utf8')
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith('#'))
    .map((line) => {
      const [name = '', ...faults] = line.split(' ')
      return [name, faults] as const
    })
)

function report({ id, place, what, danger, mend, related }: Diagnostic, source: SourceText): string {
  const { start, end } = place
  return [
    `${id} ${start.line}:${start.column}-${end.line}:${end.column}`,
    `  | ${source.text
      .slice(start.offset, end.offset)
      .replace(/[\n\r]+/g, ' / ')
      .slice(0, 100)}`,
    `  What: ${what}`,
    `  Danger: ${danger}`,
    `  Mend: ${mend}`,
    ...related.map((other) => `  Line ${other.place.start.line}: ${other.note}`)
  ].join('\n')
}

describe('what the language refuses', () => {
  it('has an expectation for each case, and a case for each expectation', () => {
    expect([...expected.keys()].sort()).toEqual([...cases].sort())
    const texts = readdirSync(folder).filter((name) => name.endsWith('.txt') && name !== 'expected.txt')
    expect(texts.map((name) => name.slice(0, -4)).sort()).toEqual([...cases].sort())
  })

  it.each(cases)('%s', (name) => {
    const bytes = readFileSync(new URL(`${name}.md`, folder))
    const result = parseProcedure({ file: `${name}.md`, bytes })
    if (result.ok) throw new Error('It was accepted.')
    const { diagnostics } = result
    expect(diagnostics.map(({ id, place }) => `${id}:${place.start.line}`).sort()).toEqual(
      [...(expected.get(name) ?? [])].sort()
    )

    const source = new SourceText(name, new TextDecoder().decode(bytes))
    for (const { severity, place, what, danger, mend, path } of diagnostics) {
      expect(severity).toBe('error')
      expect(path).toEqual([])
      for (const sentence of [what, danger, mend]) expect(sentence).toMatch(/^[^\s].*[.?]$/u)
      expect(source.point(place.start.offset)).toEqual(place.start)
      expect(source.point(place.end.offset)).toEqual(place.end)
    }
    const text = `${diagnostics.map((fault) => report(fault, source)).join('\n\n')}\n`
    const beside = new URL(`${name}.txt`, folder)
    if (process.env['UPDATE_FIXTURES'] === '1') writeFileSync(beside, text)
    expect(existsSync(beside) ? readFileSync(beside, 'utf8') : '').toBe(text)
  })
})
