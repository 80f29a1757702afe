import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readDirectiveLine } from './directive-line.js'
import { parseMarkdown } from './markdown/markdown-parser.js'

/** What the parser itself makes of a line. */
function byParser(line: string): string {
  const [node] = parseMarkdown(line).children
  if (node?.type === 'containerDirective') return `opening ${node.name}`
  if (node?.type === 'leafDirective') return `leaf ${node.name}`
  return 'nothing'
}

function byUs(line: string): string {
  const found = readDirectiveLine(line, 0)
  return found.kind === 'opening' || found.kind === 'leaf' ? `${found.kind} ${found.name}` : 'nothing'
}

describe('a line that begins with colons', () => {
  it('is read as the Markdown parser reads it', () => {
    const piece = fc.constantFrom(
      ':',
      '::',
      ':::',
      ' ',
      '{',
      '}',
      '[',
      ']',
      '"',
      "'",
      '=',
      '#',
      '.',
      '-',
      '_',
      '`',
      '<',
      '>',
      '\\',
      '|',
      '!',
      '&',
      '1',
      'a',
      'ab',
      'é',
      '€',
      'at=Q1',
      'of="a b"',
      "of='a'",
      '#id',
      '.class',
      'flag',
      '[label]',
      '{at=Q1}',
      '{}',
      '[]',
      'lock',
      'a.b',
      'a:b',
      '\u00a0',
      '×'
    )
    fc.assert(
      fc.property(fc.constantFrom('::', ':::', '::::'), fc.array(piece, { maxLength: 12 }), (colons, pieces) => {
        const line = colons + pieces.join('')
        expect(`${line} is ${byUs(line)}`).toBe(`${line} is ${byParser(line)}`)
      }),
      { seed: 20_261_125, numRuns: 1500 }
    )
  })

  it.each([
    ['::lock{at=Q1}', 'leaf lock'],
    [':::lock[Main [big] switch]{#a .b at="Q1 Q2" x=\'1\' flag}  ', 'opening lock'],
    ['::::a-b_c', 'opening a-b_c'],
    ['::lock{at=Q1}{at=Q2}', 'nothing'],
    ['::lock {at=Q1}', 'nothing'],
    ['::lock{at = Q1}', 'leaf lock'],
    ['::lock{at=}', 'nothing'],
    ['::lock[a]b', 'nothing'],
    ['::lock-', 'nothing'],
    [':::', 'nothing']
  ])('%s', (line, expected) => {
    expect(byUs(line)).toBe(expected)
    expect(byParser(line)).toBe(expected)
  })

  it('says which part of it is wrong', () => {
    const wrong = (line: string): string => {
      const found = readDirectiveLine(line, 0)
      return found.kind === 'broken' ? line.slice(found.from, found.to) : found.kind
    }
    expect(wrong('::lock{at=Q1} now')).toBe('now')
    expect(wrong('::lock {at=Q1}')).toBe(' {')
    expect(wrong('::lock{at=Q1')).toBe('{at=Q1')
    expect(wrong('::lock{at=Q1 b=<c}')).toBe('b=<c}')
    expect(wrong('::stop[Call')).toBe('[Call')
    expect(wrong('::stop\t')).toBe('\t')
  })
})
