import bidiFactory, { type Bidi } from 'bidi-js'
import { describe, expect, it } from 'vitest'
import { breakLines } from '../text/break-lines.js'
import { say, stress } from '../text/say.js'
import { labelSegments } from './turned-line.js'
import { directionOf, readsRightToLeft, visualPieces } from './visual-pieces.js'

/** As seen from left to right; letters of a right-to-left piece turned, as the font's shaping turns them. */
function seen(text: string, base: 'ltr' | 'rtl'): string {
  return visualPieces(text, base, [])
    .map((piece) => (readsRightToLeft(piece.text) ? [...piece.text].reverse().join('') : piece.text))
    .join('')
}

const bidi = (bidiFactory as unknown as () => Bidi)()

/** By the reference of the same algorithm, for texts without quantities. */
function reference(text: string, base: 'ltr' | 'rtl'): string {
  return bidi.getReorderedString(text, bidi.getEmbeddingLevels(text, base))
}

describe('visualPieces', () => {
  it.each([
    ['לחצו על עצירה (STOP) בלוח הדלת.', 'rtl'],
    ['press עצירה then (א) and go', 'ltr'],
    ['ראו שלב 7, 12 ו-15', 'rtl'],
    ['אבג ABC דהו 123', 'rtl'],
    ['abc אבג [דה] xyz', 'ltr'],
    ['انظر الخطوة ١٢ (ب)', 'rtl']
  ] as const)('orders %s as Unicode Annex 9 does (%s)', (text, base) => {
    expect(seen(text, base)).toBe(reference(text, base))
  })

  it('never parts a number from its unit, nor turns them', () => {
    expect(seen('עד פחות מ 50 V ולא יותר', 'rtl')).toContain('50 V')
    expect(seen('המתינו 15 min אחרי', 'rtl')).toContain('15 min')
    expect(seen('لمدة 15 min بعد 4.2 bar', 'rtl')).toMatch(/4\.2 bar.*15 min/)
    // A number and a name are no quantity: they follow the order of the sentence.
    expect(seen('שלב 7 Q1 סגור', 'rtl')).toContain('Q1 7')
  })

  it('keeps Arabic digits in their order: they are handed over turned, for the font turns them', () => {
    const piece = visualPieces('انظر ١٢', 'rtl', []).find(({ text }) => /[٠-٩]/.test(text))
    expect(piece?.text).toBe('٢١')
  })

  it('finds the direction of a paragraph by its first letter', () => {
    expect(directionOf('12 שלב STOP')).toBe('rtl')
    expect(directionOf('12 STOP שלב')).toBe('ltr')
  })
})

describe('lines of a right-to-left paragraph', () => {
  const metrics = { width: (text: string, _: string, size: number) => [...text].length * size * 0.5 }

  it('end at the right margin, each no wider than the column', () => {
    const lines = breakLines(say('לחצו על עצירה בלוח הדלת ואז המתינו עד שהמהירות בלוח היא אפס'), 100, 10, metrics)
    expect(lines.length).toBeGreaterThan(1)
    for (const { segments, width } of lines) {
      expect(width).toBeCloseTo(100)
      for (const { x } of segments) expect(x).toBeGreaterThanOrEqual(0)
    }
    // The first word is read first: it stands at the right.
    expect(lines[0]?.segments.at(-1)?.text).toBe('לחצו')
  })

  it('keep the faces of their words', () => {
    const [line] = breakLines([...say('שלום '), ...stress('סכנה'), ...say(' כאן')], 400, 10, metrics)
    expect(line?.segments.map(({ text, face }) => [text, face])).toEqual([
      ['כאן', 'regular'],
      ['סכנה', 'bold'],
      ['שלום', 'regular']
    ])
  })

  it('are turned in labels too, from their left end', () => {
    const parts = labelSegments('מספר מנעול: 7', 'regular', 10, metrics)
    expect(parts.map(({ text }) => text)).toEqual(['7', 'מנעול:', 'מספר'])
    expect(parts[0]?.x).toBe(0)
    expect(labelSegments('Lock no.: ', 'bold', 10, metrics)).toEqual([{ text: 'Lock no.: ', face: 'bold', x: 0 }])
  })

  it('leave lines without such letters as they were', () => {
    expect(breakLines(say('Press Stop'), 400, 10, metrics)[0]?.segments).toEqual([
      { text: 'Press Stop', face: 'regular', x: 0 }
    ])
  })
})
