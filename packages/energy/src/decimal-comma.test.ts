import { describe, expect, test } from 'vitest'
import { parseQuantity } from './parse-quantity.js'
import { parseReading } from './parse-reading.js'

describe('quantities where the decimal sign is a comma', () => {
  const read = (text: string) => parseQuantity(text, { decimal: 'comma' })

  test.each([
    ['1,5 bar', 1.5, 0],
    ['9,4 mF ± 20 %', 9.4, 0.2],
    ['930 V dc ± 2,5 %', 930, 0.025],
    ['1,480 bar', 1.48, 0],
    ['-0,5 bar', -0.5, 0]
  ])('%s', (text, value, tolerance) => {
    expect(read(text)).toMatchObject({ ok: true, value: { value, tolerance, written: text } })
  })

  test.each(['1.5 bar', '9,4 mF ± 2.5 %', '1.480,5 bar', '1,480,5 bar', ',5 bar', '1, bar'])(
    '%s is refused',
    (text) => {
      expect(read(text).ok).toBe(false)
    }
  )

  test('a procedure has a point whatever the locale', () => {
    expect(parseQuantity('1,5 bar').ok).toBe(false)
    expect(read('1.5 bar')).toMatchObject({ ok: false, why: expect.stringContaining('has a point') })
  })
})

describe('readings where the decimal sign is a comma', () => {
  const value = (text: string, unit = 'bar') => {
    const read = parseReading(text, unit, { decimal: 'comma' })
    return read.ok ? read.value : read.why
  }

  test('what is in doubt changes sides', () => {
    expect(value('1,480')).toBe(1.48)
    expect(value('1.480')).toBe('`1.480` can be read as 1480 or as 1,480: type one of these.')
    expect(parseReading('1,480', 'bar')).toMatchObject({ ok: false, why: expect.stringContaining('1480 or as 1.480') })
    expect(parseReading('1.480', 'bar')).toMatchObject({ ok: true, value: 1.48 })
  })

  test('what can only be a decimal is one with either sign', () => {
    expect(value('4,2 bar')).toBe(4.2)
    expect(value('4.2 bar')).toBe(4.2)
    expect(value('0.690 kV', 'V')).toBe(690)
    expect(value('-48,5 V', 'V')).toBe(-48.5)
  })

  test('two marks are never one number', () => {
    expect(value('1.480,5')).toContain('decimal comma and no other marks')
    expect(value('1,480,500')).toContain('decimal comma and no other marks')
  })
})
