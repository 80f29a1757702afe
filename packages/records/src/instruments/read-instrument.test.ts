import { describe, expect, it } from 'vitest'
import { readAccuracy, readRange, readRating } from './read-instrument.js'

describe('what is printed on an instrument', () => {
  it('is read as a rating', () => {
    const told = (text: string) => {
      const read = readRating(text)
      return read.ok ? `${read.value.category} ${read.value.upTo.si} ${read.value.upTo.current ?? ''}` : null
    }
    expect(told('CAT III 1000 V')).toBe('III 1000 ')
    expect(told('cat iv 600V')).toBe('IV 600 ')
    expect(told('II 0.3 kV dc')).toBe('II 300 dc')
    expect(['CAT I 300 V', 'CAT III', '1000 V', 'CAT III 10 bar', 'CAT V 600 V'].map(told)).toEqual([
      null,
      null,
      null,
      null,
      null
    ])
  })

  it('is read as a range', () => {
    const told = (text: string) => {
      const read = readRange(text)
      return read.ok ? [read.value.low.si, read.value.high.si] : null
    }
    expect(told('0 to 10 bar')).toEqual([0, 1_000_000])
    expect(told('-1 bar to 9 bar')).toEqual([-100_000, 900_000])
    expect(told('6 V to 1 kV')).toEqual([6, 1000])
    expect(['10 bar', 'to 10 bar', '0 to 10', '0-10 bar'].map(told)).toEqual([null, null, null, null])
  })

  it('is read as an accuracy whose parts add up', () => {
    const told = (text: string) => {
      const read = readAccuracy(text)
      return read.ok ? [read.value.ofReading, read.value.ofRange, read.value.plus?.si ?? null] : null
    }
    expect(told('1.6 % of range')).toEqual([0, 1.6, null])
    expect(told('± 2 % of reading + 1 V')).toEqual([2, 0, 1])
    expect(told('0.1 bar')).toEqual([0, 0, 10_000])
    expect(told('2 % of reading + 1 % of range + 500 mV')).toEqual([2, 1, 0.5])
    expect(['', '2 %', '1 V + 2 V', 'exact', '2 % of it'].map(told)).toEqual([null, null, null, null, null])
  })
})
