import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { SourceText } from './source-text.js'

describe('SourceText', () => {
  it('knows its lines, whatever ends them', () => {
    const source = new SourceText('x', 'a\nbc\r\n\rd')
    expect([1, 2, 3, 4].map((line) => source.line(line))).toEqual(['a', 'bc', '', 'd'])
    expect(source.lineCount).toBe(4)
    expect(source.point(3)).toEqual({ line: 2, column: 2, offset: 3 })
    expect(source.point(999)).toEqual({ line: 4, column: 2, offset: 8 })
  })

  it('gives for each offset the line that holds it', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom('a', '\n', '\r', '\r\n', 'é'), { maxLength: 40 }),
        fc.nat(60),
        (parts, offset) => {
          const source = new SourceText('x', parts.join(''))
          const { line, column, offset: inside } = source.point(offset)
          expect(inside).toBe(Math.min(offset, source.text.length))
          expect(source.startOf(line) + column - 1).toBe(inside)
          expect(source.startOf(line + 1)).toBeGreaterThanOrEqual(inside)
          expect(source.text.slice(0, source.startOf(line)).split(/\r\n|\n|\r/).length).toBe(line)
        }
      ),
      { seed: 20_261_125, numRuns: 500 }
    )
  })
})
