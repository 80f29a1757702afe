import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { Faults } from './faults.js'
import { findFrontMatter } from './front-matter/find-front-matter.js'
import { parseProcedure } from './parse-procedure.js'
import { LIMITS } from './scan/limits.js'
import { scanSource } from './scan/scan-source.js'
import { SourceText } from './source-text.js'

const example = readFileSync(new URL('../fixtures/accepted/booster-pump.md', import.meta.url), 'utf8')
const head = example.slice(0, example.indexOf('\n---\n') + 5)
const body = example.slice(head.length)

function ids(text: string): readonly string[] {
  const result = parseProcedure({ file: 'x', text })
  return result.ok ? [] : [...new Set(result.diagnostics.map(({ id }) => id))]
}

/** The parts that the Markdown parser would be given. */
function parts(text: string): readonly string[] {
  const source = new SourceText('x', text)
  const faults = new Faults()
  return scanSource(source, findFrontMatter(source, faults)?.next ?? 1, faults).parts.map((part) => part.text)
}

function fill(piece: string, size = 200_000): string {
  return piece.repeat(Math.ceil(size / piece.length))
}

/** The same in lines that are short enough. */
function lines(piece: string): string {
  return fill(`${piece.repeat(Math.floor(4000 / piece.length))}\n`)
}

const backticks = Array.from({ length: 600 }, (_, index) => '`'.repeat(index + 1))
  .join(' ')
  .replace(/.{4000} /g, '$&\n')

// Each of these takes the bare parser from seconds to minutes; none of them reaches it.
const stalling: readonly (readonly [string, string, string])[] = [
  ['five thousand nested fences', ':::a\n'.repeat(5000), 'too-deep'],
  [
    'fences that grow inward',
    Array.from({ length: 500 }, (_, index) => `${':'.repeat(503 - index)}a\n`).join(''),
    'too-deep'
  ],
  ['unclosed containers with text', ':::a\n\nx\n\n'.repeat(1000), 'too-deep'],
  ['broken containers', ':::a{b\n\nx\n\n'.repeat(1000), 'too-deep'],
  ['nested lists', Array.from({ length: 500 }, (_, index) => `${' '.repeat(index * 2)}- a\n`).join(''), 'too-deep'],
  ['lists on one line', `${'- '.repeat(2000)}a\n`, 'too-deep'],
  ['nested quotes', `${'>'.repeat(5000)}a\n`, 'too-deep'],
  ['containers in code that a list ends', `- \`\`\`\n\na\n\n${':::a\n\nx\n\n'.repeat(500)}`, 'too-deep'],
  ['quotes', fill('> a\n\n'), 'costly-text'],
  ['lists in one container', `::::work\n${fill('a\n\n- a\n- b\n\n')}::::\n`, 'costly-text'],
  ['lists in lists', fill('- a\n  - b\n    - c\n'), 'costly-text'],
  ['list items', fill('- a\n'), 'costly-text'],
  ['underlined headings', fill('a\n=\n'), 'costly-text'],
  ['rows of a table', `|a|\n|-|\n${fill('|c|\n')}`, 'costly-text'],
  ['comments that are not closed', lines('a <!-- '), 'costly-text'],
  ['instructions that are not closed', lines('a <? '), 'costly-text'],
  ['declarations that are not closed', lines('a <!A '), 'costly-text'],
  ['brackets', lines('[a]('), 'costly-text'],
  ['stars', lines('**a*'), 'costly-text'],
  ['backticks', backticks, 'costly-text']
]

describe('limits', () => {
  it.each(stalling)('%s are refused before the parser is called', (_, text, id) => {
    expect(ids(head + text)).toContain(id)
    expect(parts(head + text)).toEqual([])
  })

  it('a long file with many lists is parsed in short parts', () => {
    const text =
      head +
      Array.from(
        { length: 120 },
        (_, index) => `\n# Part ${index}\n\n${fill('A line of text.\n\n- a\n- b\n\n', 600)}`
      ).join('')
    const lengths = parts(text).map((part) => part.length)
    expect(lengths.length).toBeGreaterThan(40)
    expect(Math.max(...lengths)).toBeLessThan(4000)
    expect(ids(text)).toEqual([])
  })

  it('a file of more bytes than allowed is not looked at, whatever it holds', () => {
    const most = LIMITS.bytes
    expect(ids('a'.repeat(10 * 1024 * 1024))).toEqual(['file-too-large'])
    expect(ids('a\n'.repeat(most / 2 + 1))).toEqual(['file-too-large'])
    // Bytes count, not characters.
    expect(ids('é\n'.repeat(most / 3 + 1))).toEqual(['file-too-large'])
    expect(ids('a\n'.repeat(most / 2))).not.toContain('file-too-large')
    expect(parseProcedure({ file: 'x', bytes: new Uint8Array(most + 1) })).toMatchObject({
      ok: false,
      diagnostics: [{ id: 'file-too-large' }]
    })
  })

  it('a line of more characters than allowed is refused', () => {
    expect(ids(`${example}\n${'a'.repeat(LIMITS.lineLength)}`)).toEqual([])
    expect(ids(`${example}\n${'a'.repeat(LIMITS.lineLength + 1)}`)).toEqual(['line-too-long'])
  })

  it('sixteen levels are allowed and seventeen are not', () => {
    const nested = (depth: number): string =>
      Array.from({ length: depth }, (_, index) => `${'  '.repeat(index)}- a\n`).join('')
    expect(ids(`${head}\n${nested(LIMITS.depth)}\n`)).toEqual([])
    expect(ids(`${head}\n${nested(LIMITS.depth + 1)}\n`)).toEqual(['too-deep'])
  })

  it('two thousand steps are allowed and one more is not', () => {
    const steps = '::clear\n'.repeat(LIMITS.steps)
    expect(ids(`${head}\n${steps}`)).toEqual([])
    expect(ids(`${head}\n${steps}::clear\n`)).toEqual(['too-many-steps'])
  })

  it('two hundred aliases are allowed and one more is not', () => {
    const aliased = (count: number): string =>
      `${head.slice(0, -4)}no-start-control: &a none\ntranslates: *a\nleft-on: [${'*a, '.repeat(count - 1)}]\n---\n${body}`
    expect(ids(aliased(LIMITS.aliases))).toEqual(['bad-value'])
    expect(ids(aliased(LIMITS.aliases + 1))).toEqual(['broken-yaml'])
  })

  it('only so many faults are listed, and the last says that there are more', () => {
    const result = parseProcedure({ file: 'x', text: `${head}\n${'::: a\n'.repeat(1)}${'::stop x\n'.repeat(3000)}` })
    if (result.ok) throw new Error('It was accepted.')
    expect(result.diagnostics.length).toBe(LIMITS.faults + 1)
    expect(result.diagnostics.at(-1)?.id).toBe('too-many-faults')
  })

  it('front matter that is nested without end is refused before the YAML parser is called', () => {
    for (const text of ['['.repeat(50_000), '{a: '.repeat(20_000), '- '.repeat(50_000), '? '.repeat(50_000)]) {
      const line = `x: ${text}`.replace(/.{9000}/g, '$&\n')
      expect(ids(`---\n${line}\n---\n`)).toEqual(['too-deep'])
    }
    const stairs = Array.from({ length: 600 }, (_, index) => `${' '.repeat(index)}a:\n`).join('')
    expect(ids(`---\n${stairs}---\n`)).toEqual(['too-deep'])
  })

  it('a bomb of aliases does not go off', () => {
    const levels = 'bcdefghij'.split('').map((name, index) => {
      const before = String.fromCharCode('a'.charCodeAt(0) + index)
      return `${name}: &${name} [${Array.from({ length: 9 }, () => `*${before}`).join(', ')}]\n`
    })
    expect(ids(`---\na: &a [x, x, x, x, x, x, x, x, x]\n${levels.join('')}title: *j\n---\n`)).toEqual([
      'missing-key',
      'unknown-key',
      'bad-value'
    ])
  })
})

describe('bytes that are no text', () => {
  const withBytes = (bytes: number[]): Uint8Array =>
    Uint8Array.from([...new TextEncoder().encode(`${example}\nText `), ...bytes, 10])

  it.each([
    ['a broken sequence', [0xc3, 0x28], 'not-utf-8'],
    ['a lone continuation', [0x80], 'not-utf-8'],
    ['an overlong slash', [0xc0, 0xaf], 'not-utf-8'],
    ['a surrogate', [0xed, 0xa0, 0x80], 'not-utf-8'],
    ['NUL', [0], 'control-character'],
    ['escape', [0x1b, 0x5b, 0x32, 0x4a], 'control-character'],
    ['a second byte-order mark', [0xef, 0xbb, 0xbf], 'control-character']
  ])('%s is refused where it stands', (_, bytes, id) => {
    const result = parseProcedure({ file: 'x', bytes: withBytes(bytes) })
    if (result.ok) throw new Error('It was accepted.')
    const [first] = result.diagnostics
    expect(first.id).toBe(id)
    expect(first.place.start).toMatchObject({ line: example.split('\n').length + 1, column: 6 })
  })

  it('a lone surrogate in a text that was decoded already is refused', () => {
    expect(ids(`${example}\nText \ud800 here`)).toEqual(['not-utf-8'])
    expect(ids(`${example}\nText 😀 here`)).toEqual([])
  })

  it('an empty file, a byte-order mark alone and blank lines alone are refused', () => {
    for (const text of ['', '\ufeff', '\n\n', ' ']) expect(ids(text)).toEqual(['missing-front-matter'])
  })

  it('Windows line endings change nothing', () => {
    expect(ids(example.replaceAll('\n', '\r\n'))).toEqual([])
  })
})
