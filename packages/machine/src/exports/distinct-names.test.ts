import { expect, it } from 'vitest'
import { distinctNames, nameOf } from './distinct-names.js'

const plain = (id: string): string => id.replace(/[^a-z0-9_]/g, '_')

it('numbers ids that would share a name, also where the number is taken', () => {
  const names = distinctNames(['a-b', 'a_b', 'a_b_2', 'a+b', 'a-b'], plain)
  expect([...names]).toEqual([
    ['a-b', 'a_b'],
    ['a_b', 'a_b_2'],
    ['a_b_2', 'a_b_2_2'],
    ['a+b', 'a_b_3']
  ])
  expect(new Set(names.values()).size).toBe(names.size)
})

it('does not make a name up', () => {
  expect(() => nameOf(distinctNames(['a'], plain), 'b')).toThrow('declares no b')
})
