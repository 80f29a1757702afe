import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type Confirmation, confirmationOf, confirms } from './confirmation.js'

describe('confirmationOf', () => {
  it('never takes the key or the word that confirmed the thing before', () => {
    const word = fc.constantFrom('clear', 'locked', 'done')
    fc.assert(
      fc.property(fc.array(fc.tuple(word, fc.nat({ max: 30 })), { maxLength: 40 }), (gates) => {
        let last: Confirmation | null = null
        for (const [said, turn] of gates) {
          const next: Confirmation = confirmationOf(said, turn, last)
          expect(next.key).toMatch(/^[2-9]$/)
          if (last !== null) {
            expect(confirms(last.key, next)).toBe(false)
            expect(confirms(last.word, next)).toBe(false)
          }
          last = next
        }
      })
    )
  })

  it('asks for the word in another form where the same kind of gate follows', () => {
    expect(confirmationOf('clear', 3, { key: '4', word: 'clear' })).toEqual({ key: '9', word: 'clear too' })
  })

  it('takes the word in capitals too', () => {
    expect(confirms('CLEAR', { key: '4', word: 'clear' })).toBe(true)
    expect(confirms('clea', { key: '4', word: 'clear' })).toBe(false)
  })
})
