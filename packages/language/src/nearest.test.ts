import { describe, expect, it } from 'vitest'
import { nearest } from './nearest.js'

describe('nearest', () => {
  it('gives the nearest first, at most four', () => {
    expect(nearest('lokc', ['look', 'lock', 'clock', 'unlock', 'work'])).toEqual(['lock'])
    expect(nearest('aaaaaa', ['aaaaa', 'aaaaab', 'aaaabb', 'aaaaaaa', 'aabaaa'])).toEqual([
      'aaaaa',
      'aaaaaaa',
      'aaaaab',
      'aabaaa'
    ])
  })

  it('counts another case as nearest and a swap as one edit', () => {
    expect(nearest('q1', ['Q1', 'q2'])).toEqual(['Q1', 'q2'])
    expect(nearest('mians', ['mains'])).toEqual(['mains'])
  })

  it('gives nothing where nothing is near, and never the name itself', () => {
    expect(nearest('pump', ['valve', 'cabinet'])).toEqual([])
    expect(nearest('5', ['0', '1'])).toEqual([])
    expect(nearest('lock', ['lock'])).toEqual([])
    expect(nearest('', ['a'])).toEqual([])
    expect(nearest('a'.repeat(50), ['a'.repeat(50)])).toEqual([])
  })
})
