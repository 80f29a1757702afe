import type { Run } from '@lockwright/language'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { breakLines, type Line } from './break-lines.js'
import type { Metrics } from './metrics.js'
import { say } from './say.js'

/** Every sign is one size wide, a bold one two. */
const metrics: Metrics = { width: (text, face, size) => [...text].length * size * (face === 'bold' ? 2 : 1) }

function told(lines: readonly Line[]): readonly string[] {
  return lines.map(({ segments }) => segments.map(({ text }) => text).join(''))
}

describe('breakLines', () => {
  it('breaks at blanks, at no more than the width', () => {
    const lines = breakLines(say('open the drain  cock'), 10, 1, metrics)
    expect(told(lines)).toEqual(['open the', 'drain cock'])
    expect(lines.map(({ width }) => width)).toEqual([8, 10])
  })

  it('keeps a number and its unit together where the blank between them does not break', () => {
    expect(told(breakLines(say('is below 50\u00A0V'), 11, 1, metrics))).toEqual(['is below', '50\u00A0V'])
  })

  it('cuts a word that is wider than a line and drops nothing', () => {
    expect(told(breakLines(say('abcdefghij kl'), 4, 1, metrics))).toEqual(['abcd', 'efgh', 'ij', 'kl'])
  })

  it('sets each face where it stands, and keeps a word of two faces together', () => {
    const [line] = breakLines(
      [
        { kind: 'text', text: 'turn ' },
        { kind: 'strong', text: 'Q1' },
        { kind: 'text', text: ', then V1' }
      ],
      100,
      1,
      metrics
    )
    expect(line?.segments).toEqual([
      { text: 'turn ', face: 'regular', x: 0 },
      { text: 'Q1', face: 'bold', x: 5 },
      { text: ', then V1', face: 'regular', x: 9 }
    ])
  })

  it('breaks where the author broke the line', () => {
    expect(
      told(
        breakLines([{ kind: 'text', text: 'one' }, { kind: 'break' }, { kind: 'text', text: 'two' }], 100, 1, metrics)
      )
    ).toEqual(['one', 'two'])
  })

  it('makes no line of nothing', () => {
    expect(breakLines([], 10, 1, metrics)).toEqual([])
  })

  it('leaves room for the blanks of a bold text, which are wider', () => {
    const [line] = breakLines(
      [
        { kind: 'strong', text: 'in two words' },
        { kind: 'text', text: ' more' }
      ],
      100,
      1,
      metrics
    )
    expect(line?.segments.map(({ x }) => x)).toEqual([0, 26])
  })

  it('sets a text in one run as it sets the same text in two', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom('Q1', 'turn', 'a', 'switch-disconnector', ' ', '\n', '\u00A0', 'Ω', 'אב'), {
          maxLength: 30
        }),
        fc.constantFrom('text' as const, 'strong' as const, 'code' as const),
        fc.integer({ min: 3, max: 60 }),
        (words, kind, width) => {
          const run: Run = { kind, text: words.join(' ') }
          expect(breakLines([run], width, 1, metrics)).toEqual(breakLines([run, { kind, text: '' }], width, 1, metrics))
        }
      ),
      { seed: 20261126, numRuns: 500 }
    )
  })
})
