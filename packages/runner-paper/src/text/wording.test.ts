import { describe, expect, it } from 'vitest'
import { english } from '../catalog.js'
import { duration } from './duration.js'
import { limitText } from './limit-text.js'
import { moment } from './moment.js'
import { unbroken } from './say.js'

const none = { min: null, max: null, below: null }

describe('duration', () => {
  it.each([
    [45, '45 s'],
    [60, '1 min'],
    [524, '8 min 44 s'],
    [900, '15 min'],
    [7500, '2 h 5 min'],
    [0, '0 s']
  ])('tells %d seconds as %s', (seconds, told) => {
    expect(duration(seconds)).toBe(unbroken(told))
  })

  it('never tells a wait shorter than it is', () => {
    expect(duration(59.2)).toBe(unbroken('1 min'))
  })
})

describe('limitText', () => {
  it.each([
    [{ ...none, below: 50 }, 'V', 'below 50 V'],
    [{ ...none, below: 0 }, 'rpm', '0 rpm, not above'],
    [{ ...none, min: 880, max: 980 }, 'V', '880 to 980 V'],
    [{ ...none, min: 0.5 }, 'bar', 'at least 0.5 bar'],
    [{ ...none, max: 48 }, '°C', 'at most 48 °C'],
    [none, 'A', 'note what it reads']
  ])('tells %o in %s as a range: %s', (limits, unit, told) => {
    expect(limitText(limits, unit, english).replaceAll('\u00A0', ' ')).toBe(told)
  })
})

describe('moment', () => {
  it('tells a time in UTC, whatever the zone of the machine', () => {
    expect(moment('2026-01-05T10:00:00+02:00')).toBe('2026-01-05 08:00 UTC')
  })

  it('leaves what is no time as it is', () => {
    expect(moment('last week')).toBe('last week')
  })
})
