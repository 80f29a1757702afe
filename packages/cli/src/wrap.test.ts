import { describe, expect, it } from 'vitest'
import { wrap } from './wrap.js'

describe('wrap', () => {
  it('breaks at spaces so that no line is wider than its room, later lines indented', () => {
    const text = wrap('The earths go only onto what was proven dead before', 20, '  ')
    expect(text).toBe('The earths go only\n  onto what was proven\n  dead before')
  })

  it('never cuts a word', () => {
    expect(wrap('a verylongwordindeed b', 8, '')).toBe('a\nverylongwordindeed\nb')
  })
})
