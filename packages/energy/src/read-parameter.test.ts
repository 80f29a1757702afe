import { describe, expect, test } from 'vitest'
import { parameterFacts } from './parameter-facts.js'
import { numberQuantity, readEnergySource, readParameter, withParameter } from './read-parameter.js'

describe('one parameter', () => {
  const why = (name: string, text: string) => {
    const read = readParameter(name, text)
    return read.ok ? 'read' : read.why
  }

  test('a quantity of the right dimension', () => {
    expect(readParameter('capacitance', '9.4 mF ± 20 %')).toMatchObject({
      ok: true,
      value: { kind: 'quantity', name: 'capacitance', quantity: { si: 0.0094, tolerance: 0.2 } }
    })
    expect(why('capacitance', '9.4 V')).toBe('`capacitance` is a capacitance, and `9.4 V` is a voltage.')
    expect(why('capacity', '5 V')).toBe('`capacity` is a charge or an energy, and `5 V` is a voltage.')
    expect(why('capacitance', '9.4')).toContain('`capacitance`: `9.4` has no unit')
    expect(why('colour', '5 V')).toBe('`colour` is not a parameter of an energy source.')
    expect(why('constructor', '5 V')).toBe('`constructor` is not a parameter of an energy source.')
  })

  test('shares and counts', () => {
    const number = (text: string) => {
      const read = readParameter('discharge-coefficient', text)
      return read.ok && read.value.kind === 'quantity' ? read.value.quantity : undefined
    }
    expect(number('0.8')).toMatchObject({ si: 0.8, dimension: 'number', interval: { low: 0.8, high: 0.8 } })
    expect(number('0.8 ± 10 %')?.interval).toEqual({ low: 0.72, high: 0.88 })
    expect(number('80 %')).toMatchObject({ si: 0.8 })
    for (const text of ['0', '-1', '0.8 m', 'much', '0.8 ± 100 %', '']) expect(number(text)).toBeUndefined()
    expect(numberQuantity(3, 0.1).interval).toEqual({ low: 3 * 0.9, high: 3 * 1.1 })
  })

  test('words', () => {
    expect(readParameter('gas', 'nitrogen')).toMatchObject({ ok: true, value: { kind: 'gas', gas: 'nitrogen' } })
    expect(why('gas', 'phlogiston')).toContain('is not a gas that is known here')
    expect(readParameter('contact', '10 s')).toMatchObject({ ok: true, value: { kind: 'contact', text: '10 s' } })
    expect(why('surface', ' ')).toContain('is empty')
  })

  test('the atmosphere is absolute whatever the unit', () => {
    expect(readParameter('atmosphere', '0.8 bar')).toMatchObject({ value: { quantity: { reference: 'absolute' } } })
  })

  test('with a decimal comma', () => {
    expect(readParameter('discharge-coefficient', '0,8', { decimal: 'comma' })).toMatchObject({ ok: true })
    expect(readParameter('pressure', '4,2 bar', { decimal: 'comma' })).toMatchObject({ ok: true })
  })
})

describe('a whole source', () => {
  test('all faults are told at once', () => {
    expect(readEnergySource('gas', { pressure: '7 V', volume: '12', gas: 'air' })).toMatchObject({
      ok: false,
      why: [expect.stringContaining('`pressure`'), expect.stringContaining('`volume`')]
    })
  })

  test('a parameter put in the place of another leaves the rest', () => {
    const read = readEnergySource('capacitor', { voltage: '930 V dc', capacitance: '9.4 mF' })
    const other = readParameter('voltage', '750V')
    if (!read.ok || !other.ok) throw new Error('not read')
    const changed = withParameter(read.value, other.value)
    expect(changed.quantities['voltage']?.si).toBe(750)
    expect(changed.quantities['capacitance']?.si).toBe(0.0094)
    expect(read.value.quantities['voltage']?.si).toBe(930)
  })
})

test('every parameter has a symbol and words', () => {
  for (const { symbol, says, dimensions } of Object.values(parameterFacts)) {
    expect(symbol.length * says.length * dimensions.length).toBeGreaterThan(0)
  }
})
