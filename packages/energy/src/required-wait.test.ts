import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { parseQuantity } from './parse-quantity.js'
import type { Quantity } from './quantity.js'
import type { RelieveTime } from './relieve-time.js'
import { requiredWait } from './required-wait.js'

function time(text: string): Quantity {
  const parsed = parseQuantity(text)
  if (!parsed.ok) throw new Error(parsed.why)
  return parsed.value
}

const decay = (seconds: number): RelieveTime => ({ kind: 'computed', seconds, formula: '', inputs: [], source: '' })

test('the label is longer than the decay', () => {
  expect(requiredWait({ label: time('15 min'), computed: decay(634) })).toEqual({
    seconds: 900,
    because: 'label',
    writtenTooShort: false,
    grounds: { label: 900, computed: 634 }
  })
})

test('a written wait that is too short is noticed, and never used', () => {
  const wait = requiredWait({ written: time('5 min'), label: time('15 min'), computed: decay(1000) })
  expect(wait).toMatchObject({ seconds: 1000, because: 'computed', writtenTooShort: true })
})

test('the lower end of a written wait and the upper end of a label count', () => {
  const wait = requiredWait({ written: time('10 min ± 10 %'), label: time('10 min ± 10 %') })
  expect(wait).toMatchObject({ seconds: 660, because: 'label', writtenTooShort: true, grounds: { written: 540 } })
})

test('no ground at all, and grounds that cannot be reckoned', () => {
  expect(requiredWait({})).toEqual({ seconds: 0, because: 'none', writtenTooShort: false, grounds: {} })
  const computed: RelieveTime = { kind: 'not-computable', missing: ['bleed'] }
  expect(requiredWait({ written: undefined, label: undefined, computed })).toMatchObject({ because: 'none' })
  expect(requiredWait({ computed: decay(0) })).toMatchObject({ seconds: 0, because: 'computed' })
})

test('it is the largest of the three, and of equal ones the first', () => {
  const minutes = fc.option(fc.integer({ min: 0, max: 60 }), { nil: undefined })
  fc.assert(
    fc.property(minutes, minutes, minutes, (written, label, computed) => {
      const wait = requiredWait({
        written: written === undefined ? undefined : time(`${written} min`),
        label: label === undefined ? undefined : time(`${label} min`),
        computed: computed === undefined ? undefined : decay(computed * 60)
      })
      const known = [written, label, computed].filter((value) => value !== undefined)
      expect(wait.seconds).toBe(60 * Math.max(0, ...known))
      expect(wait.because === 'none').toBe(known.length === 0)
      expect(wait.writtenTooShort).toBe(written !== undefined && written * 60 < wait.seconds)
      if (written !== undefined && written * 60 === wait.seconds) expect(wait.because).toBe('written')
    }),
    { seed: 20261125 }
  )
})
