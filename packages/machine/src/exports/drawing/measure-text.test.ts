import { expect, it } from 'vitest'
import { widthOf, wrapText } from './measure-text.js'

it('loses no word while there is room, and breaks what is too long', () => {
  const text = 'Walk to the suction header for the valve'
  const lines = wrapText(text, 120, 13, 9)
  expect(lines.join(' ')).toBe(text)
  for (const line of lines) expect(widthOf(line, 13)).toBeLessThanOrEqual(120)
  expect(wrapText('Abcdefghijklmnopqrstuvwxyz', 60, 13, 9).join('')).toBe('Abcdefghijklmnopqrstuvwxyz')
})

it('says by an ellipsis that there is more', () => {
  const lines = wrapText('one two three four five six seven', 60, 13, 2)
  expect(lines.length).toBe(2)
  expect(lines[1]).toMatch(/ …$/)
  expect(wrapText('', 60, 13, 2)).toEqual([])
})

it('counts broad letters as broad', () => {
  expect(widthOf('停止', 10)).toBe(20)
  expect(widthOf('ill', 10)).toBeLessThan(widthOf('MMM', 10))
})
