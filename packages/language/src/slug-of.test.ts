import { describe, expect, it } from 'vitest'
import { slugOf } from './slug-of.js'

describe('slugOf', () => {
  it.each([
    ['Lock out', 'lock-out'],
    ['  Change the module!  ', 'change-the-module'],
    ['DC+ / DC-', 'dc-dc'],
    ['Größe (2)', 'größe-2'],
    ['Gro\u0308ße', 'größe'],
    ['停止', '停止'],
    ['—', '']
  ])('%s', (title, slug) => {
    expect(slugOf(title)).toBe(slug)
  })
})
