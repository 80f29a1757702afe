import { readFileSync } from 'node:fs'
import type { Diagnostic } from '@lockwright/language'
import { describe, expect, it } from 'vitest'
import { findingsOf, verdictOf } from './compile-text.js'

const example = readFileSync(new URL('../fixtures/contract-example.md', import.meta.url), 'utf8')

/** The example with one passage changed; a passage that is not there once is a mistake of the test. */
function changed(passage: string, instead: string): string {
  const parts = example.split(passage)
  if (parts.length !== 2) throw new Error(`stands ${parts.length - 1} times: ${passage}`)
  return parts.join(instead)
}

function lineOf(text: string, passage: string, occurrence = 1): number {
  let at = -1
  for (let count = 0; count < occurrence; count += 1) at = text.indexOf(passage, at + 1)
  if (at < 0) throw new Error(`not there: ${passage}`)
  return text.slice(0, at).split('\n').length
}

function diagnosticsOf(text: string): readonly Diagnostic[] {
  const verdict = verdictOf(text)
  return verdict.kind === 'proved' ? [] : verdict.diagnostics
}

describe('the example of the contract', () => {
  it('is proved, with its size counted exactly', () => {
    const verdict = verdictOf(example)
    expect(findingsOf(verdict)).toEqual([])
    expect(verdict.kind).toBe('proved')
    expect(verdict.report.states).toBe(35)
    expect(verdict.report.configurations).toBe(66)
  })

  it('is refused without dc-link in its prove', () => {
    const text = changed(':::prove{of="mains control dc-link"', ':::prove{of="mains control"')
    expect(findingsOf(verdictOf(text))).toEqual([
      // The lamp of the link is dark, and now nothing else looks at it.
      `lamp-no-proof:${lineOf(text, ':::lamp{of=dc-link')}`,
      `ground-after-proof:${lineOf(text, '::restrain{with=earths')}`,
      `work-proven:${lineOf(text, '1. Unplug the ribbon cable')}`,
      `work-proven:${lineOf(text, '1. Undo the four bolts')}`,
      `work-proven:${lineOf(text, '1. Pull the red handle')}`,
      `work-proven:${lineOf(text, '1. Put the new')}`
    ])
  })

  it('is refused with the earths left on', () => {
    const text = changed('::remove{restraint=earths}\n', '')
    expect(findingsOf(verdictOf(text))).toEqual([
      `restraints-off:${lineOf(text, '::unlock{at="V1 Q2 Q1"}')}`,
      `restraints-off:${lineOf(text, '::energize{at="V1 Q2 Q1"}')}`,
      `all-returned:${text.split('\n').length}`
    ])
  })

  it('is refused with the second notify gone', () => {
    const text = changed(
      ':::notify[Control room and pump operator]\nThe locks are off. The pump is about to start.\n:::\n',
      ''
    )
    expect(findingsOf(verdictOf(text))).toEqual([`told-before-start:${lineOf(text, '::energize{')}`])
  })

  it('is refused with a when missing', () => {
    const text = changed(
      ':::when{is=series-t}\n1. Pull the red handle and slide the module out to the front.\n:::\n',
      ''
    )
    expect(findingsOf(verdictOf(text))).toEqual([`branches-cover:${lineOf(text, '::::by{hardware=cabinet}')}`])
  })

  it('is refused with work before the lock', () => {
    const text = changed(':::lock{at=Q1}', '1. Take off the inner cover.\n\n:::lock{at=Q1}')
    const line = lineOf(text, '1. Take off the inner cover.\n\n')
    const found = findingsOf(verdictOf(text))
    expect(found).toContain(`work-isolated:${line}`)
    expect(found).toContain(`tryout-done:${line}`)
  })

  it('is refused with the shaft pin taken out and put back in the middle of the work', () => {
    const text = changed(
      '1. Put the new :ref[module] in',
      '::remove{restraint=shaft-pin}\n\n::restrain{with=shaft-pin}\n\n1. Put the new :ref[module] in'
    )
    // The earths still hold what the turning rotor could have charged, so nothing is released; but no proof stands.
    expect(findingsOf(verdictOf(text))).toEqual([
      `remove-clear:${lineOf(text, '::remove{restraint=shaft-pin}')}`,
      `work-proven:${lineOf(text, '1. Put the new')}`
    ])
  })

  it('shows the shortest way to the failure, with lines, titles and the ledger', () => {
    const text = changed(':::prove{of="mains control dc-link"', ':::prove{of="mains control"')
    const first = diagnosticsOf(text).find(({ id }) => id === 'ground-after-proof')
    expect(first?.what).toContain('`dc-link`')
    const path = first?.path ?? []
    expect(path.at(-1)?.line).toBe(lineOf(text, '::restrain{with=earths'))
    expect(path.at(-1)?.ledger).toContain('not proven: dc-link')
    const lines = text.split('\n')
    expect(path.every(({ line, title }) => line >= 1 && line <= lines.length && title !== '')).toBe(true)
  })
})
