import { describe, expect, it } from 'vitest'
import { printable } from './printable.js'

describe('printable', () => {
  it('shows what would steer a terminal instead of sending it', () => {
    expect(printable('a\u001b[2Jb\u009bc\u202ed\u0000')).toBe('a\\u{1b}[2Jb\\u{9b}c\\u{202e}d\\u{0}')
  })

  it('shows a carriage return, with which a line could be overwritten', () => {
    expect(printable('refused\rproved ')).toBe('refused\\u{d}proved ')
  })

  it('leaves text of any script, tabs and line feeds alone', () => {
    const text = 'Ω ≤ 50 V,\tšachta\nнасос'
    expect(printable(text)).toBe(text)
  })
})
