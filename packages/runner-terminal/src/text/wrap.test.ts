import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { columnsOf, fit, pad } from './columns.js'
import { visible } from './visible.js'
import { wrap } from './wrap.js'

describe('wrap', () => {
  it('breaks at spaces and hangs the lines that follow', () => {
    expect(wrap('1. Turn the handle to O and look', 14, '   ')).toEqual([
      '1. Turn the',
      '   handle to O',
      '   and look'
    ])
  })

  it('breaks a word that is longer than the line', () => {
    expect(wrap('Q1 abcdefghij', 6)).toEqual(['Q1', 'abcdef', 'ghij'])
  })

  it('keeps the indent that a line begins with', () => {
    expect(wrap('   in a list', 8, '   ')).toEqual(['   in a', '   list'])
  })

  it('counts wide characters as two columns', () => {
    expect(columnsOf('泵2')).toBe(3)
    expect(wrap('泵泵泵泵', 5)).toEqual(['泵泵', '泵泵'])
  })

  it('counts a combining mark as none', () => {
    expect(columnsOf('e\u0301')).toBe(1)
  })

  it('never overflows and never loses a letter', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }).map(visible), fc.integer({ min: 6, max: 80 }), (text, width) => {
        const lines = wrap(text, width, '  ')
        for (const line of lines) expect(columnsOf(line)).toBeLessThanOrEqual(width)
        const letters = (all: string): string => all.replace(/ /g, '')
        expect(letters(lines.join(''))).toBe(letters(text))
      })
    )
  })
})

describe('fit and pad', () => {
  it('cut to a width and say so', () => {
    expect(fit('Booster pump', 8)).toBe('Booster…')
    expect(columnsOf(fit('泵泵泵', 4))).toBeLessThanOrEqual(4)
    expect(pad('ab', 4)).toBe('ab  ')
  })
})
