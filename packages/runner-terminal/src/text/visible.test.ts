import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { visible, visibleLines } from './visible.js'

describe('visible', () => {
  it.each([
    ['a terminal command (ECMA-48 CSI)', 'Q1\u001b[2JQ2', 'Q1<U+001B>[2JQ2'],
    ['an operating-system command that sets the title', '\u001b]0;safe\u0007', '<U+001B>]0;safe<U+0007>'],
    ['the 8-bit control sequence introducer', '\u009b31m', '<U+009B>31m'],
    ['a carriage return that overwrites the line', 'LIVE\rdead', 'LIVE<U+000D>dead'],
    ['a backspace', 'on\b\boff', 'on<U+0008><U+0008>off'],
    ['a right-to-left override', 'Q\u202e12\u202c', 'Q<U+202E>12<U+202C>'],
    ['an isolate', '\u2066V\u2069', '<U+2066>V<U+2069>'],
    ['a zero-width space', '5\u200b0 V', '5<U+200B>0 V'],
    ['a tag character', 'a\u{e0041}', 'a<U+E0041>'],
    ['a lone surrogate', 'a\ud800b', 'a<U+D800>b'],
    ['a line separator', 'a\u2028b', 'a<U+2028>b'],
    ['NUL and DEL', '\u0000\u007f', '<U+0000><U+007F>'],
    ['a joiner that only hides', 'Q\u200d1', 'Q<U+200D>1']
  ])('shows %s', (_, hostile, shown) => {
    expect(visible(hostile)).toBe(shown)
  })

  it('leaves what people write alone', () => {
    for (const text of ['12 kΩ ± 5 %', 'Größe', '泵 2', 'می\u200cخواهم', 'क्\u200dष', '⚠ 50 °C'])
      expect(visible(text)).toBe(text)
  })

  it('turns a tab into one space', () => {
    expect(visible('a\tb')).toBe('a b')
  })

  it('is one line without a control character, and changes nothing the second time', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        const shown = visible(text)
        expect(shown).not.toMatch(/[\p{Cc}\p{Cs}\u2028-\u202e\u2066-\u2069]/u)
        expect(visible(shown)).toBe(shown)
      })
    )
  })

  it('parts lines at line breaks alone', () => {
    expect(visibleLines('a\nb\r\nc\rd\u000be')).toEqual(['a', 'b', 'c', 'd<U+000B>e'])
  })
})
