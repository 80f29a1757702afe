import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'

const root = join(import.meta.dirname, '..', '..', '..')
const page = readFileSync(join(import.meta.dirname, '..', 'PART-11.md'), 'utf8')

/** Paragraphs of 21 CFR Part 11 that ask something of closed systems and of signatures; numbering from memory of the published text. */
const paragraphs = [
  ...'abcdefghijk'.split('').map((letter) => `11.10(${letter})`),
  '11.50(a)',
  '11.50(b)',
  '11.70',
  ...'abc'.split('').map((letter) => `11.100(${letter})`),
  '11.200(a)(1)',
  '11.200(a)(1)(i)',
  '11.200(a)(1)(ii)',
  '11.200(a)(2)',
  '11.200(a)(3)',
  '11.200(b)',
  ...'abcde'.split('').map((letter) => `11.300(${letter})`)
]

const rows = page
  .split('\n')
  .filter((line) => line.startsWith('| 11.'))
  .map((line) => {
    const cells = line.split('|').map((cell) => cell.trim())
    const [paragraph = '', asks = '', answer = '', shows = '', plant = '', ...more] = cells.slice(1, -1)
    return { paragraph, asks, answer, shows, plant, more }
  })

describe('the page that holds the records beside 21 CFR Part 11', () => {
  it('has one row for each paragraph, in their order, and no other', () => {
    expect(rows.map(({ paragraph }) => paragraph)).toEqual(paragraphs)
    for (const { more, asks, paragraph } of rows) {
      expect(more, paragraph).toEqual([])
      expect(asks.length, paragraph).toBeGreaterThan(20)
    }
  })

  it('answers each with one of its four words, and shows by a test what it calls met', () => {
    for (const { paragraph, answer, shows, plant } of rows) {
      const test = /^`((?:packages|tests)\/[^`]+\.test\.tsx?)`: .{10,}/.exec(shows)?.[1]
      switch (answer) {
        case 'met':
        case 'met, plant adds':
          expect(test !== undefined && existsSync(join(root, test)), `${paragraph}: ${shows}`).toBe(true)
          expect(plant !== '', paragraph).toBe(answer === 'met, plant adds')
          break
        case 'not met':
        case 'does not apply':
          expect(test, paragraph).toBeUndefined()
          expect(plant, paragraph).not.toBe('')
          break
        default:
          expect.fail(`${paragraph}: ${answer}`)
      }
    }
  })

  it('calls less met than it asks, and nothing compliant', () => {
    expect(rows.filter(({ answer }) => answer === 'not met').length).toBeGreaterThan(0)
    expect(page).toContain('No software is "compliant" by itself')
    expect(page.match(/complian/g)?.length).toBe(1)
  })
})
