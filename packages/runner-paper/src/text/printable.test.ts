import { describe, expect, it } from 'vitest'
import { printable } from './printable.js'

const latin = (codePoint: number): boolean => codePoint < 0x3000

describe('printable', () => {
  it('shows what the fonts lack as a replacement sign, and names it', () => {
    expect(printable({ title: 'Lock \u{1F512} Q1', rows: [['泵']] }, latin)).toEqual({
      value: { title: 'Lock \uFFFD Q1', rows: [['\uFFFD']] },
      missing: [0x6cf5, 0x1f512]
    })
  })

  it('shows control characters and marks that turn the reading order, and obeys none', () => {
    expect(printable('a\u0000b\u001B[2Jc\u202Ed\u2066e\u009Bf', latin).value).toBe(
      'a\uFFFDb\uFFFD[2Jc\uFFFDd\uFFFDe\uFFFDf'
    )
  })

  it('drops marks without a shape and keeps ordinary text', () => {
    expect(printable('22\u00A0k\u2126 \u00ADtail\uFEFF', latin).value).toBe('22\u00A0kΩ tail')
  })

  it('composes what was written in two characters', () => {
    expect(printable('Pru\u0308fen', latin).value).toBe('Prüfen')
  })

  it('leaves numbers, booleans and null alone', () => {
    expect(printable({ number: 1, yes: true, none: null }, latin).value).toEqual({ number: 1, yes: true, none: null })
  })
})
