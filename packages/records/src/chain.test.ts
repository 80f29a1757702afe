import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { canonicalJson } from './canonical-json.js'
import { brokenFrom, readChain } from './chain.js'
import { sha256Hex } from './digest.js'
import type { Entry } from './entry.js'

const file = join(import.meta.dirname, '..', 'fixtures', 'golden-v1', 'site', 'runs', 'example.jsonl')
const bytes = readFileSync(file)
const entries: readonly Entry[] = bytes
  .toString('utf8')
  .split('\n')
  .slice(0, -1)
  .map((line) => JSON.parse(line))

/** Written anew with each `prev` right, whatever else was changed. */
function chained(changed: readonly object[]): Uint8Array {
  let prev = ''
  const lines = changed.map((entry, index) => {
    const line = canonicalJson(index === 0 ? entry : { ...entry, prev })
    prev = sha256Hex(line)
    return `${line}\n`
  })
  return Buffer.from(lines.join(''))
}

const told = (changed: readonly object[]): readonly string[] =>
  readChain(chained(changed), '', 'example').faults.map((fault) => `${fault.line} ${fault.what}`)

describe('the chain of a journal', () => {
  it('is sound in the example, and gives its entries back', () => {
    const reading = readChain(bytes, file, 'example')
    expect(reading.faults).toEqual([])
    expect(reading.lines.map((line) => line.entry)).toEqual(entries)
    expect([reading.whole, reading.torn.length]).toEqual([bytes.length, 0])
    expect(chained(entries)).toEqual(bytes)
  })

  const [first, second, third] = entries as [Entry, Entry, Entry]
  it.each([
    [
      'a number twice',
      [first, { ...second, seq: 1 }, third],
      '2 Line 2 is not what was written: it bears the number 1.'
    ],
    [
      'a number left out',
      [first, { ...second, seq: 3 }, third],
      '2 Line 2 is not what was written: it bears the number 3.'
    ],
    [
      'another run',
      [first, { ...second, run: 'other' }, third],
      '2 Line 2 is not what was written: it belongs to run `other`.'
    ],
    ['no opening', [{ ...second, seq: 1 }], '1 Line 1 is not what was written: it opens no run.'],
    ['two openings', [first, { ...first, seq: 2 }], '2 Line 2 is not what was written: it opens a run.'],
    [
      'an opening of another machine',
      [{ ...first, opens: { ...first.opens, machine: '0'.repeat(64) } }],
      '1 Line 1 is not what was written: it is not chained to its machine.'
    ],
    [
      'a member too many',
      [{ ...first, more: 1 }],
      '1 Line 1 is not what was written: it holds `more`, which has no place there.'
    ]
  ])('does not take %s', (_, changed, expected) => {
    expect(told(changed)[0]).toBe(expected)
  })

  it('belongs to the file that bears its name', () => {
    expect(readChain(bytes, file, 'golden').faults.map(({ line, what }) => `${line} ${what}`)).toEqual([
      '1 Line 1 is not what was written: it belongs to run `example`.'
    ])
    expect(readChain(bytes, file).faults).toEqual([])
  })

  const lines = bytes.toString('utf8').split('\n').slice(0, -1)
  const read = (changed: readonly string[]) => readChain(Buffer.from(`${changed.join('\n')}\n`), file, 'example')

  it('cannot tell which of two lines was changed, and says so: the earlier one is no more to be relied on', () => {
    const changed = read(lines.map((line, index) => (index === 1 ? line.replace('20000', '20001') : line)))
    expect(changed.faults.length).toBe(1)
    expect(changed.faults[0]?.what).toMatch(/^Line 2 or line 3 was changed after it was written/)
    expect(changed.faults[0]?.mend).toContain('Do not rely on anything from line 2 on.')
    expect(brokenFrom(changed)).toBe(2)
    expect(brokenFrom(readChain(bytes, file, 'example'))).toBeNull()
  })

  it('is told to be broken once for a line left out, and once for a line that is no entry', () => {
    const [one = '', two = '', three = ''] = lines
    expect(read([one, three]).faults.map(({ line, what }) => [line, what.endsWith('it bears the number 3.')])).toEqual([
      [1, true]
    ])
    expect(read([one, two.replace('{', '{ '), three]).faults.map(({ line }) => line)).toEqual([2])
  })
})
