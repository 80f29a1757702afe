import { describe, expect, test } from 'vitest'
import { type GloveClass, gloveClasses, gloveClassFits, worstCaseVolts } from './glove-classes.js'
import { parseQuantity } from './parse-quantity.js'

describe('maximum use voltage', () => {
  // ac: 29 CFR 1910.137 table I-4, read at second hand. dc: from memory.
  test.each<[GloveClass, number, number]>([
    ['00', 500, 750],
    ['0', 1000, 1500],
    ['1', 7500, 11250],
    ['2', 17000, 25500],
    ['3', 26500, 39750],
    ['4', 36000, 54000]
  ])('class %s', (glove, ac, dc) => {
    expect(gloveClassFits(glove, ac, 'ac')).toBe(true)
    expect(gloveClassFits(glove, ac + 0.1, 'ac')).toBe(false)
    expect(gloveClassFits(glove, dc, 'dc')).toBe(true)
    expect(gloveClassFits(glove, dc + 0.1, 'dc')).toBe(false)
    expect(gloveClassFits(glove, ac + 0.1, undefined)).toBe(false)
  })

  test('the columns rise together: dc is half as much again as ac', () => {
    for (const { ac, dc } of Object.values(gloveClasses)) expect(dc).toBe(1.5 * ac)
  })

  test('no number is no fit', () => {
    expect(gloveClassFits('4', Number.NaN, 'ac')).toBe(false)
    expect(gloveClassFits('4', -1, 'ac')).toBe(false)
  })
})

test('worst-case volts', () => {
  const volts = (text: string) => {
    const parsed = parseQuantity(text)
    if (!parsed.ok) throw new Error(parsed.why)
    return worstCaseVolts(parsed.value)
  }
  expect(volts('690 V ac ± 10 %')).toBe(759)
  expect(volts('930 V dc ± 5 %')).toBe(976.5)
  expect(volts('6.6 kV ac')).toBe(6600)
  expect(() => volts('5 A')).toThrow('is not a voltage')
})
