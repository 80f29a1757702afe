import type { Diagnostic, PathStep } from '@lockwright/language'
import { describe, expect, it } from 'vitest'
import { columnsOf, reportWidth } from './columns.js'
import { formatDiagnostic } from './report.js'

function diagnostic(change: Partial<Diagnostic> = {}, line = 2, column = 1, end = 9): Diagnostic {
  return {
    id: 'work-isolated',
    severity: 'error',
    place: {
      file: 'procedures/a.md',
      start: { line, column, offset: 0 },
      end: { line, column: end, offset: 0 }
    },
    what: 'What is wrong.',
    danger: 'Why it hurts.',
    mend: 'What to do.',
    related: [],
    path: [],
    ...change
  }
}

function way(length: number): readonly PathStep[] {
  return Array.from({ length }, (_, index) => ({ line: 10 + index, title: `Step ${index + 1}`, ledger: 'on: mains' }))
}

const text = 'first\nsecond line\nthird'

describe('formatDiagnostic', () => {
  it('prints header, place, danger, way and advice', () => {
    expect(formatDiagnostic(diagnostic({ path: way(2) }), text)).toBe(
      `error work-isolated  procedures/a.md:2:1

  What is wrong.

   2 | second line
     | ^^^^^^^^

  Why it is dangerous:
    Why it hurts.

  How it comes about:
    1. line 10  Step 1
                on: mains
    2. line 11  Step 2
                on: mains

  How to mend:
    What to do.

  More: lockwright explain work-isolated
`
    )
  })

  it('shows what stands behind the last line at the end of that line, and leaves the diagnostic as it is', () => {
    const behind = diagnostic(
      { path: [...way(1), { line: 6, title: 'Back in service', ledger: 'off: mains' }] },
      6,
      1,
      1
    )
    const printed = formatDiagnostic(behind, `${text}  \n\n\n`)
    expect(printed).toContain('error work-isolated  procedures/a.md:3:6\n')
    expect(printed).toContain('   3 | third\n     |      ^\n')
    expect(printed).toContain('2. line 3   Back in service')
    expect(behind.place.start.line).toBe(6)
  })

  it('points to other places, and to a page only where there is one', () => {
    const place = {
      file: 'procedures/a.md',
      start: { line: 3, column: 2, offset: 0 },
      end: { line: 3, column: 4, offset: 0 }
    }
    const printed = formatDiagnostic(
      diagnostic({ id: 'unknown-name', related: [{ place, note: 'It stands here.' }] }),
      text
    )
    expect(printed).toContain('  See also:\n    line 3. It stands here.\n\n   3 | third\n     |  ^^\n')
    expect(printed).toContain('  More: lockwright explain unknown-name\n')
    expect(formatDiagnostic(diagnostic({ id: 'answers-unreadable' }), text)).not.toContain('More:')
  })

  it('shortens a long way in the middle and keeps the numbers', () => {
    const printed = formatDiagnostic(diagnostic({ path: way(40) }), text)
    const lines = printed.split('\n').filter((line) => /Step|\.\.\./u.test(line))
    expect(lines).toHaveLength(13)
    expect(lines[2]).toContain(' 3. line 12  Step 3')
    expect(lines[3]?.trim()).toBe('... steps 4 to 31 ...')
    expect(lines[4]).toContain('32. line 41  Step 32')
    expect(lines[12]).toContain('40. line 49  Step 40')
  })

  it('keeps every line within 100 columns, wide characters counted as two', () => {
    const long = 'a rather long sentence that goes on and on, '.repeat(9)
    const path = [
      { line: 3, title: '配電盤のロックを外す前に全員の退避を確認する', ledger: long },
      { line: 4, title: long, ledger: long }
    ]
    const printed = formatDiagnostic(
      diagnostic({ what: long, danger: long, mend: long, path }, 2, 130, 140),
      `x\n${long}`
    )
    for (const line of printed.split('\n')) expect(columnsOf(line)).toBeLessThanOrEqual(reportWidth)
    expect(printed).toContain('配電盤のロックを外す前に全員の退避を確認する')
  })

  it('breaks a word that is wider than the page', () => {
    const printed = formatDiagnostic(diagnostic({ what: `see ${'配'.repeat(120)}` }), text)
    for (const line of printed.split('\n')) expect(columnsOf(line)).toBeLessThanOrEqual(reportWidth)
    expect(printed.match(/配/gu)).toHaveLength(120)
  })

  it('puts the carets under what is meant, in a line too long to show and behind wide characters', () => {
    const written = `${'a'.repeat(300)}HERE${'b'.repeat(300)}`
    const [shown = '', carets = ''] = formatDiagnostic(diagnostic({}, 1, 301, 305), written)
      .split('\n')
      .slice(4, 6)
    expect(shown.slice(carets.indexOf('^'), carets.lastIndexOf('^') + 1)).toBe('HERE')
    expect(shown).toMatch(/^ {3}1 \| \.\.\.a+HEREb+\.\.\.$/u)
    const [whole = '', under = ''] = formatDiagnostic(diagnostic({}, 1, 1, 151), 'x'.repeat(150))
      .split('\n')
      .slice(4, 6)
    expect(whole).toMatch(/^ {3}1 \| x+\.\.\.$/u)
    expect(under.match(/\^/gu)).toHaveLength(whole.match(/x/gu)?.length ?? 0)
    const behind = formatDiagnostic(diagnostic({}, 1, 3, 5), '漢字ab')
      .split('\n')
      .slice(4, 6)
    expect(behind).toEqual(['   1 | 漢字ab', '     |     ^^'])
  })

  it('shows one caret for an empty place and behind the last line', () => {
    expect(formatDiagnostic(diagnostic({}, 4, 1, 1), text)).toContain('\n   3 | third\n     |      ^\n')
    expect(formatDiagnostic(diagnostic({}, 3, 6, 6), text)).toContain('\n   3 | third\n     |      ^\n')
  })

  it('marks the rest of the line where the place ends on a later one', () => {
    const place = { file: 'a.md', start: { line: 2, column: 8, offset: 0 }, end: { line: 3, column: 3, offset: 0 } }
    expect(formatDiagnostic(diagnostic({ place }), text)).toContain('   2 | second line\n     |        ^^^^\n')
  })

  it('lets nothing through that a terminal obeys', () => {
    const controls = '\u001b[2J\u202e\u0007\u009b31m'
    const shown = formatDiagnostic(
      diagnostic(
        { what: controls, danger: controls, mend: controls, path: [{ line: 1, title: controls, ledger: controls }] },
        1,
        1,
        3
      ),
      `${controls}\tx\r\nnext`
    )
    expect(shown).not.toMatch(/[^\P{C}\n]/u)
    expect(shown).toContain('<U+001B>[2J<U+202E><U+0007><U+009B>31m  x\n')
  })

  it.each(['\n', '\r\n', '\r'])('finds the line whatever ends lines (%j)', (ending) => {
    expect(formatDiagnostic(diagnostic({}, 3, 1, 6), ['a', 'b', 'third', 'd'].join(ending))).toContain(
      '   3 | third\n     | ^^^^^\n'
    )
  })

  it('does not take long over a line as long as a file', () => {
    const started = performance.now()
    formatDiagnostic(diagnostic({}, 1, 5_000_000, 5_000_010), 'x'.repeat(10_000_000))
    expect(performance.now() - started).toBeLessThan(2000)
  })
})
