import { describe, expect, it } from 'vitest'
import { forge } from '../../packages/records/fixtures/forge.js'
import { goldenJournals } from './tampering.js'

describe.each(goldenJournals)('a journal of $title', ({ bytes, lines, entries, audited, wholeOf }) => {
  const told = (changed: readonly string[], what: string): void => {
    if (wholeOf(changed.join('')).length === 0) expect.fail(`${what} and not told`)
  }

  it('is told for every line that was dropped, or put in again anywhere', () => {
    for (const [index, line] of lines.entries()) {
      // Without its last lines it may be whole, and is open then: that is for the second question to tell.
      if (audited(lines.toSpliced(index, 1).join('')).answer === 'good')
        expect.fail(`line ${index + 1} was dropped and not told`)
      for (let to = 0; to <= lines.length; to += 1) {
        told(lines.toSpliced(to, 0, line), `line ${index + 1} was put in again before line ${to + 1}`)
      }
    }
  })

  it('is told for any two lines that were swapped, and any line that was moved elsewhere', () => {
    for (const [index, line] of lines.entries()) {
      for (let other = 0; other < lines.length; other += 1) {
        if (other === index) continue
        told(lines.toSpliced(index, 1).toSpliced(other, 0, line), `line ${index + 1} was moved to ${other + 1}`)
        if (other < index) continue
        told(
          lines.with(index, lines[other] as string).with(other, line),
          `lines ${index + 1} and ${other + 1} were swapped`
        )
      }
    }
  })

  it('is told for any run of lines that was cut out, and any that was turned around', () => {
    for (let from = 0; from < lines.length; from += 1) {
      for (let to = from + 2; to <= lines.length; to += 1) {
        const part = lines.slice(from, to)
        told(lines.toSpliced(from, to - from, ...part.toReversed()), `lines ${from + 1} to ${to} were turned around`)
        if (to < lines.length) told(lines.toSpliced(from, to - from), `lines ${from + 1} to ${to} were cut out`)
      }
    }
  })

  it('is told for every byte at which it was cut off', () => {
    for (let end = 0; end < bytes.length; end += 1) {
      const cut = bytes.subarray(0, end)
      const good = cut.at(-1) === 0x0a ? audited(cut).answer === 'good' : wholeOf(cut).length === 0
      if (good) expect.fail(`cut off at byte ${end} and not told`)
    }
  })

  it('is told for every signature that was moved to any other entry, chained anew or not', () => {
    const signed = entries.filter(({ jws }) => jws !== undefined)
    expect(signed.length).toBeGreaterThan(0)
    for (const from of signed) {
      for (const to of entries) {
        if (to.seq === from.seq) continue
        for (const alone of [false, true]) {
          // With what stands about it, or the bare signature; taken away there, or copied.
          const moved = forge(lines.join(''), (entry) => {
            if (entry.seq === to.seq) {
              const { jws, signature } = from
              return {
                ...entry,
                ...(alone ? {} : { signature }),
                ...(jws === undefined ? {} : { jws })
              } as typeof entry
            }
            if (entry.seq !== from.seq || alone) return entry
            const { jws: _jws, signature: _signature, ...bare } = entry
            return bare
          })
          const found = wholeOf(moved)
          if (!found.some(({ id, seq }) => id === 'signature-bad' && seq === to.seq)) {
            expect.fail(`the signature of entry ${from.seq} was moved to ${to.seq} and not told there`)
          }
        }
      }
    }
  })

  it('is told for a signature out of another run, under the same person', () => {
    for (const other of goldenJournals.filter(({ title }) => title !== '')) {
      for (const from of other.entries.filter(({ jws }) => jws !== undefined)) {
        if (lines.includes(`${JSON.stringify(from)}\n`) || other.lines === lines) continue
        const last = entries.at(-1)
        const pasted = forge(lines.join(''), (entry) =>
          entry.seq === last?.seq ? ({ ...entry, signature: from.signature, jws: from.jws } as typeof entry) : entry
        )
        expect(wholeOf(pasted).map(({ id }) => id)).toContain('signature-bad')
      }
    }
  })

  it('is told for a clock that was rewritten at any entry, chained anew to its end', () => {
    const later = (at: string, by: number): string => new Date(Date.parse(at) + by).toISOString()
    for (const { seq } of entries) {
      for (const by of [-1, 1, 60_000, -3_600_000]) {
        const wall = forge(lines.join(''), (entry) =>
          entry.seq === seq ? { ...entry, at: later(entry.at, by) } : entry
        )
        const steady = forge(lines.join(''), (entry) =>
          entry.seq === seq ? { ...entry, elapsed: Math.max(0, entry.elapsed + Math.abs(by)) } : entry
        )
        const all = forge(lines.join(''), (entry) => (entry.seq >= seq ? { ...entry, at: later(entry.at, by) } : entry))
        for (const changed of [wall, steady, all]) {
          expect(
            wholeOf(changed).some(({ id }) => id === 'signature-bad'),
            `clock of entry ${seq}, by ${by}`
          ).toBe(true)
        }
      }
    }
  })

  it('is told for every entry that was put in, left out or answered otherwise before a signature, chained anew', () => {
    for (const { seq } of entries) {
      const without = forge(lines.join(''), (entry) => (entry.seq === seq ? null : entry))
      const noted = forge(lines.join(''), (entry) =>
        entry.seq === seq ? ({ ...entry, event: { kind: 'note', text: 'All well' } } as typeof entry) : entry
      )
      const someoneElse = forge(lines.join(''), (entry) =>
        entry.seq === seq ? ({ ...entry, by: 'birk' } as typeof entry) : entry
      )
      for (const changed of [without, noted, someoneElse]) {
        if (audited(changed).answer === 'good') expect.fail(`entry ${seq} was changed, chained anew, and not told`)
      }
    }
  })
})
