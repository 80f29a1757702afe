import type { Diagnostic } from '@lockwright/language'
import { describe, expect, it } from 'vitest'
import { reportText } from './report-text.js'

const place = (line: number, column: number, endColumn: number) => ({
  file: 'p.md',
  start: { line, column, offset: 0 },
  end: { line, column: endColumn, offset: 0 }
})

const diagnostic: Diagnostic = {
  id: 'work-isolated',
  severity: 'error',
  place: place(3, 1, 12),
  what: 'Hands go to work while `mains` may still be fed.',
  danger: 'A device that is not locked can be switched on by anyone.',
  mend: 'Lock `Q1` before line 3.',
  related: [{ place: place(1, 1, 2), note: '`mains` is declared here.' }],
  path: [
    { line: 1, title: 'Tell the control room', ledger: 'mains on' },
    { line: 3, title: 'Change the part', ledger: '' }
  ]
}

describe('reportText', () => {
  it('says what, where, why, how it comes about and how to mend it, with the line itself', () => {
    expect(reportText(diagnostic, 'one\ntwo\n1. Do work.\n')).toBe(
      [
        'error work-isolated  p.md:3:1',
        '',
        '  Hands go to work while `mains` may still be fed.',
        '',
        '  3 | 1. Do work.',
        '    | ^^^^^^^^^^^',
        '',
        '  Why it is dangerous: A device that is not locked can be switched on by anyone.',
        '  How it comes about:',
        '     1. line 1  Tell the control room',
        '          mains on',
        '     2. line 3  Change the part',
        '  See line 1: `mains` is declared here.',
        '  How to mend: Lock `Q1` before line 3.'
      ].join('\n')
    )
  })

  it('refers to the beginning of a way that was shown already, and says where nothing changed', () => {
    const step = (line: number, ledger: string) => ({ line, title: `Step ${line}`, ledger })
    const first = { ...diagnostic, path: [step(1, 'a'), step(2, 'b'), step(3, 'b'), step(4, 'c')] }
    const second = { ...diagnostic, path: [step(1, 'a'), step(2, 'b'), step(3, 'b'), step(5, 'b'), step(6, 'd')] }
    const way = reportText(second, 'x\n', [diagnostic, first]).split('\n').slice(6, -2)
    expect(way).toEqual([
      '    1. to 3. as for work-isolated on line 3, above',
      '     4. line 5  Step 5',
      '          (nothing changed)',
      '     5. line 6  Step 6',
      '          d'
    ])
  })

  it('shows a very long line around the fault only', () => {
    const long = `${'x'.repeat(5000)}FAULT${'y'.repeat(5000)}`
    const text = reportText({ ...diagnostic, place: place(1, 5001, 5006) }, long)
    expect(text).toContain('FAULT')
    expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThan(160)
    const [shown, marks] = text.split('\n').filter((line) => line.includes(' | '))
    expect(shown?.indexOf('FAULT')).toBe(marks?.indexOf('^^^^^'))
  })

  it('lets no control character of a title or of the source reach the terminal', () => {
    const path = [{ line: 1, title: 'a\u001b]0;x\u0007', ledger: '' }]
    expect(reportText({ ...diagnostic, path }, 'a\nb\n\u001b[31mred\n')).not.toContain('\u001b')
  })
})
