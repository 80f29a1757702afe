import { describe, expect, it } from 'vitest'
import type { StepAnswers } from './answers.js'
import { readAnswers } from './read-answers.js'

function readGood(text: string) {
  const result = readAnswers(text, 'answers.yaml')
  if (!result.ok) throw new Error(result.diagnostics.map(({ what }) => what).join('\n'))
  return result.value
}

function faultsOf(text: string): readonly string[] {
  const result = readAnswers(text, 'answers.yaml')
  return result.ok
    ? []
    : result.diagnostics.map(({ place, id, what }) => `${place.start.line}:${place.start.column} ${id} ${what}`)
}

describe('readAnswers', () => {
  it('reads a list of entries with nothing guessed about their values', () => {
    const { answers, clock } = readGood(
      [
        '- at: lock-out.3',
        '  locks: { Q1: 017, Q2: no }',
        '- at: prove-it',
        '  ticks: all',
        '  readings: { mains: 0 V, "dc-link: DC+ to DC-": [63 V, 12 V] }',
        '- at: cabinet',
        '  choose: 1',
        '- at: open',
        '  sign: { person: m.vega, passphrase-from: env:VEGA }',
        '- at: relieve',
        '  wait: over',
        '  note: cock was stiff',
        '- "a line as typed"'
      ].join('\n')
    )
    expect(clock).toBeNull()
    const [lock, proof, choose, sign, wait, line] = answers as readonly StepAnswers[]
    expect([...(lock?.locks ?? [])]).toEqual([
      ['Q1', '017'],
      ['Q2', 'no']
    ])
    expect(proof?.ticks).toBe('all')
    expect(proof?.readings.get('dc-link: DC+ to DC-')).toEqual(['63 V', '12 V'])
    expect(choose?.choose).toBe('1')
    expect(sign?.sign).toEqual({ person: 'm.vega', passphraseFrom: 'env:VEGA' })
    expect(wait?.waited).toBe(true)
    expect(wait?.type).toEqual(['note cock was stiff'])
    expect(line).toMatchObject({ kind: 'line', line: 'a line as typed', place: { start: { line: 13 } } })
  })

  it('reads a scripted clock', () => {
    const { clock } = readGood('clock: { start: 2026-03-02T07:00:00Z, pace: 90 s }\nanswers: []\n')
    expect(clock).toEqual({ start: '2026-03-02T07:00:00Z', paceSeconds: 90 })
  })

  it('tells every fault of a file at once, each at its place', () => {
    expect(
      faultsOf(
        [
          'clok: {}',
          'answers:',
          '  - at: a.1',
          '    tick: all',
          '    wait: 5 min',
          '  - locks: { Q1: "1" }',
          '  - at: a.2',
          '    time: 2026-02-30T00:00:00Z',
          '    ticks: [one]',
          '  - [a, b]'
        ].join('\n')
      )
    ).toEqual([
      '1:1 answers-key `clok` is not known at the top of a file of answers.',
      '4:5 answers-key `tick` is not known in an entry.',
      '5:11 answers-value `wait` can only be `over`.',
      '6:5 answers-where The entry does not say where it belongs.',
      '8:11 answers-time `2026-02-30T00:00:00Z` is not a time.',
      '9:12 answers-value `one` is not the number of a box.',
      '10:5 answers-shape A list stands where one answer belongs.'
    ])
  })

  it('names the line where it is not YAML, or a key stands twice', () => {
    expect(faultsOf('- at: a\n  ticks: [all\n- at: b\n')[0]).toMatch(/^3:1 answers-yaml /)
    expect(faultsOf('- at: a\n  at: b\n')[0]).toMatch(/^2:3 answers-yaml /)
  })

  it('refuses aliases and is not made to grow by them', () => {
    const bomb = `- &a [${'x, '.repeat(10)}x]\n- &b [${'*a, '.repeat(10)}*a]\n- [${'*b, '.repeat(10)}*b]\n`
    expect(faultsOf(bomb).filter((text) => text.includes('answers-alias')).length).toBeGreaterThan(0)
  })

  it('takes a file that is empty, and refuses one that is too long', () => {
    expect(readGood('').answers).toEqual([])
    expect(faultsOf(`- "${'x'.repeat(1024 * 1024)}"`)[0]).toMatch(/answers-too-long/)
  })

  it('does not trip over names that objects have of themselves', () => {
    expect(faultsOf('- at: a\n  __proto__: x\n  constructor: y\n')).toHaveLength(2)
  })
})
