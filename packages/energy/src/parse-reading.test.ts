import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { parseReading } from './parse-reading.js'

describe('what a technician types', () => {
  test.each([
    ['0.69 kV', 'V', 690],
    ['50V', 'V', 50],
    ['50v', 'V', 50],
    ['0,69kv', 'V', 690],
    ['690', 'V', 690],
    ['4,2 bar', 'bar', 4.2],
    ['4.2', 'bar', 4.2],
    ['4.2 BAR', 'bar', 4.2],
    ['61 psi', 'bar', 4.2058019488327],
    ['420 kPa', 'bar', 4.2],
    ['-930', 'V', -930],
    ['−0,3', 'bar', -0.3],
    ['+12', 'V', 12],
    ['0,480', 'V', 0.48],
    ['1234,567', 'V', 1234.567],
    ['48 C', '°C', 48],
    ['48c', '°C', 48],
    ['118.4 F', '°C', 48],
    ['118.4 °F', '°C', 48],
    ['3 ma', 'A', 0.003],
    ['2 N m', 'N·m', 2],
    ['1480 1/min', 'rpm', 1480],
    ['0', 'rpm', 0]
  ])('%s for %s', (text, unit, value) => {
    const reading = parseReading(text, unit)
    expect(reading.ok && reading.value).toBeCloseTo(value, 9)
  })

  test('the current is kept where it was typed, in any case', () => {
    expect(parseReading('690VAC', 'V')).toEqual({ ok: true, value: 690, unit: 'V', typed: '690VAC', current: 'ac' })
    expect(parseReading('12 V (dc)', 'V')).toMatchObject({ value: 12, current: 'dc' })
  })

  test.each([
    ['', 'V', 'Nothing was typed'],
    ['dead', 'V', 'is not a reading'],
    ['OL', 'Ω', 'is not a reading'],
    ['<50', 'V', 'is not a reading'],
    ['5.', 'V', 'is not a reading'],
    ['1,480', 'rpm', '1480 or as 1.480'],
    ['1,234.5', 'V', 'is not one number'],
    ['1.2.3', 'V', 'is not one number'],
    ['50 60', 'V', 'more than one number'],
    ['3 x 400 V', 'V', 'more than one number'],
    ['50 A', 'V', 'The reading is asked for in V. `A` is a current and `V` is a voltage.'],
    ['5 J', 'N·m', 'although both are built from the same base units'],
    ['1 bara', 'bar', 'they differ by the ambient pressure'],
    ['5 mv', 'V', 'can be `mV` or `MV`'],
    ['5 zz', 'V', 'is not a unit'],
    ['5 ac', 'bar', 'goes with a voltage or a current'],
    ['-300', '°C', 'below absolute zero'],
    [`1${'0'.repeat(30)}`, 'V', 'more digits than'],
    ['5'.repeat(100), 'V', 'too long'],
    ['5', 'furlong', 'is not a unit']
  ])('%s for %s is asked for again', (text, unit, why) => {
    const reading = parseReading(text, unit)
    expect(reading.ok ? 'accepted' : reading.why).toContain(why)
  })

  test('no input throws, and what is accepted is a number', () => {
    const typed = fc.oneof(
      fc.string({ unit: 'binary' }),
      fc.string({ unit: fc.constantFrom(...'0123456789,.-+ VkmacdC°') })
    )
    fc.assert(
      fc.property(typed, fc.constantFrom('V', 'bar', '°C', 'rpm'), (text, unit) => {
        const reading = parseReading(text, unit)
        return reading.ok ? Number.isFinite(reading.value) : reading.why.endsWith('.') || reading.why.endsWith('?')
      }),
      { seed: 20261125, numRuns: 1000 }
    )
  })
})
