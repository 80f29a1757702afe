import { describe, expect, it } from 'vitest'
import { canHold, DIRECTIVES, findDirective } from './directives.js'

describe('the table of directives', () => {
  it('has each name once, in small letters', () => {
    const names = DIRECTIVES.map(({ name }) => name)
    expect(new Set(names).size).toBe(names.length)
    for (const name of names) expect(name).toMatch(/^[a-z]+$/)
  })

  it('has each attribute of a directive once, and a meaning for each', () => {
    for (const { attributes, meaning } of DIRECTIVES) {
      const names = attributes.map(({ name }) => name)
      expect(new Set(names).size).toBe(names.length)
      for (const text of [meaning, ...attributes.map((attribute) => attribute.meaning)])
        expect(text).toMatch(/^[a-z][^.]*$/)
    }
  })

  it('gives every step `role`, `wear` and `minutes`', () => {
    for (const { name, group, attributes } of DIRECTIVES) {
      if (group !== 'step') continue
      const names = attributes.map((attribute) => attribute.name)
      expect([name, ...names]).toEqual(expect.arrayContaining(['role', 'wear', 'minutes']))
    }
  })

  it('says what may stand directly in what', () => {
    expect(canHold('ask', 'answer')).toBe(true)
    expect(canHold('ask', 'lock')).toBe(false)
    expect(canHold('answer', 'lock')).toBe(true)
    expect(canHold('answer', 'answer')).toBe(false)
    expect(canHold('lock', 'clear')).toBe(false)
    expect(canHold('measure', 'outside')).toBe(true)
    expect(canHold('within', 'late')).toBe(true)
    expect(canHold('only', 'by')).toBe(true)
    expect(canHold('only', 'tool')).toBe(false)
  })

  it('finds by the exact name alone', () => {
    expect(findDirective('lock')?.group).toBe('step')
    expect(findDirective('Lock')).toBeUndefined()
    expect(findDirective('__proto__')).toBeUndefined()
  })
})
