import { basename } from 'node:path'
import { describe, expect, it, vi } from 'vitest'
import { readChain } from '../../packages/records/src/chain.js'
import { everyByte, goldenJournals, replaced } from './tampering.js'

// Total: each byte of each golden journal, twice. The chain is looked at first, as the audit does, and told by it as it
// stands; signatures, which take longer, where the chain says nothing. Some 10 seconds.

// On a computer that does much else besides.
vi.setConfig({ testTimeout: 300_000 })

describe.each(goldenJournals)('a journal of $title', ({ file, bytes, lines, wholeOf }) => {
  const told = (content: Uint8Array): readonly (number | null)[] => {
    const { faults, torn } = readChain(content, file, basename(file, '.jsonl'))
    if (torn.length > 0) return [null]
    return faults.length > 0 ? faults.map(({ line }) => line) : wholeOf(content).map(({ seq }) => seq)
  }

  it('has every break of its chain told by the audit', () => {
    for (const position of lines.map((line) => bytes.indexOf(Buffer.from(line)) + 9)) {
      const changed = replaced(bytes, position, 0x41)
      const { faults } = readChain(changed, file, basename(file, '.jsonl'))
      const found = wholeOf(changed)
      for (const { line, what } of faults) expect(found).toContainEqual(expect.objectContaining({ seq: line, what }))
    }
  })

  it('is told for every byte that was changed, at the line that was touched or one beside it', () => {
    let [line, variants] = [1, 0]
    let end = bytes.indexOf(0x0a)
    for (const { position, changed } of everyByte(bytes)) {
      if (position > end) {
        line += 1
        end = bytes.indexOf(0x0a, position)
      }
      const near = told(changed).some((seq) => seq === null || Math.abs(seq - line) <= 1)
      if (!near) expect.fail(`byte ${position}, in line ${line}, was changed and not told`)
      variants += 1
    }
    expect(line).toBe(lines.length)
    expect(variants).toBe(2 * bytes.length)
  })

  it('is told for every bit of its last line, which nothing is chained to', () => {
    const from = bytes.length - Buffer.byteLength(lines.at(-1) ?? '')
    for (let position = from; position < bytes.length; position += 1) {
      for (let bit = 0; bit < 8; bit += 1) {
        const changed = Uint8Array.from(bytes)
        changed[position] = (bytes[position] as number) ^ (1 << bit)
        if (told(changed).length === 0) expect.fail(`bit ${bit} of byte ${position} was changed and not told`)
      }
    }
  })

  it('is told for every place where it is cut off, and where a byte is left out or put in', () => {
    for (let end = 0; end < bytes.length; end += 1) {
      const without = Buffer.concat([bytes.subarray(0, end), bytes.subarray(end + 1)])
      if (told(without).length === 0) expect.fail(`byte ${end} was left out and not told`)
    }
    for (let at = 0; at <= bytes.length; at += 1) {
      const more = Buffer.concat([bytes.subarray(0, at), Buffer.from(' '), bytes.subarray(at)])
      if (told(more).length === 0) expect.fail(`a blank was put in at byte ${at} and not told`)
    }
  })
})
