import canonicalize from 'canonicalize'
import fc from 'fast-check'
import { expect, it } from 'vitest'
import { notJson, readCanonical } from './canonical-json.js'

/** The answer that needs no quick way: sort everything with a library that is not ours, and compare. */
function isCanonical(text: string): boolean {
  try {
    const value: unknown = JSON.parse(text)
    return notJson(value) === null && canonicalize(value) === text
  } catch {
    return false
  }
}

const seed = 20261126
const name = fc.oneof(
  fc.string({ unit: 'grapheme', maxLength: 4 }),
  fc.constantFrom('10', '9', '1', '__proto__', 'é', '\u{1F600}', '\uFFFD')
)
const value = fc.letrec((tie) => ({
  any: fc.oneof(
    { depthSize: 'small' },
    fc.double(),
    fc.integer(),
    fc.string({ unit: 'binary', maxLength: 6 }),
    fc.constantFrom(null, true, false, -0, '\u2028', '\\ud800'),
    fc.array(tie('any'), { maxLength: 4 }),
    fc.dictionary(name, tie('any'), { maxKeys: 4 })
  )
})).any

it(`reads as canonical what a sorting library writes, and nothing else (seed ${seed})`, () => {
  let canonical = 0
  fc.assert(
    fc.property(value, fc.nat(), fc.constantFrom('', ' ', '"', ',', '\\ud83d', '0', '.0', '{}'), (one, at, put) => {
      const written = JSON.stringify(one)
      for (const text of [written, canonicalize(JSON.parse(written)) ?? '']) {
        const place = at % (text.length + 1)
        for (const tried of [text, `${text.slice(0, place)}${put}${text.slice(place)}`]) {
          const expected = isCanonical(tried)
          if (expected) canonical += 1
          expect([tried, 'value' in readCanonical(tried)]).toEqual([tried, expected])
        }
      }
    }),
    { seed, numRuns: 3000 }
  )
  expect(canonical).toBeGreaterThan(3000)
})
