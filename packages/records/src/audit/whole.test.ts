import { rmSync, writeFileSync } from 'node:fs'
import type { LockId } from '@lockwright/machine'
import { describe, expect, it } from 'vitest'
import { forge } from '../../fixtures/forge.js'
import { bySeq, inEvent, lastSeq, onRecord, replaced, signedSeq } from '../../fixtures/on-record.js'
import { keyOf, person } from '../../fixtures/plant.js'
import { publicBytesOf } from '../public-key.js'
import { layout } from '../site.js'

describe('whole', () => {
  it('a signature cannot be moved to another entry', () => {
    onRecord(({ journal, after }) => {
      const [first = '', last = ''] = [...journal.matchAll(/"jws":"([^"]+)"/g)].map((one) => one[1] ?? '')
      const moved = forge(journal, (entry) =>
        entry.seq === lastSeq ? { ...entry, jws: first } : entry.seq === signedSeq ? { ...entry, jws: last } : entry
      )
      expect(after(moved).whole).toEqual(
        [`fault signature-bad ${signedSeq}`, `doubt unsigned-end 1`, `fault signature-bad ${lastSeq}`].toSorted(bySeq)
      )
    })
  })

  it('a change before a signature breaks it, though the chain was made anew', () => {
    onRecord(({ journal, after }) => {
      const changed = forge(journal, (entry) => (entry.seq === 4 ? inEvent(entry, { lock: '99' as LockId }) : entry))
      expect(after(changed).whole).toEqual([
        'doubt unsigned-end 1',
        `fault signature-bad ${signedSeq}`,
        `fault signature-bad ${lastSeq}`
      ])
    })
  })

  it('nobody signs for another, with whichever key', () => {
    onRecord(({ journal, after }) => {
      const by = (key: string) =>
        after(
          forge(
            journal,
            (entry) => entry,
            (entry) => (entry.seq === lastSeq ? keyOf(key) : null)
          )
        ).whole
      expect(by('odd')).toEqual([])
      expect(by('runa')).toContain(`fault signature-bad ${lastSeq}`)
      expect(by('somebody')).toContain(`fault signature-bad ${lastSeq}`)
    })
  })

  it.each([
    ['name of another', { by: person('runa') }],
    ['time of another day', { at: '2026-03-01T08:00:00.000Z' }],
    ['meaning of another signature', { meaning: 'Only witnessed' }]
  ])('a signature under the %s does not hold, though the key is right', (_, change) => {
    onRecord(({ journal, after }) => {
      const changed = forge(
        journal,
        (entry) =>
          entry.seq === lastSeq && entry.signature !== undefined
            ? { ...entry, signature: { ...entry.signature, ...change } }
            : entry,
        (entry) => (entry.seq === lastSeq ? keyOf('odd') : null)
      )
      expect(after(changed).whole).toContain(`fault signature-bad ${lastSeq}`)
    })
  })

  it('a signature that was taken off is missed', () => {
    onRecord(({ journal, after }) => {
      const stripped = forge(
        journal,
        (entry) => {
          const { jws: _, signature: __, ...bare } = entry
          return entry.seq === signedSeq ? bare : entry
        },
        (entry) => (entry.seq === lastSeq ? keyOf('odd') : null)
      )
      const findings = after(stripped)
      expect(findings.whole).toEqual([])
      expect(findings.fit).toEqual([`fault not-signed ${signedSeq}`])
    })
  })

  it('entries behind the last signature could have been changed, and it says so', () => {
    onRecord(
      ({ findings }) => {
        expect(findings().whole).toEqual([`doubt unsigned-end ${signedSeq + 1}`])
      },
      replaced(lastSeq, { signed: false })
    )
  })

  it('an issue signature that is gone is a fault of an issued run', () => {
    onRecord(({ site, findings, report }) => {
      rmSync(layout.issueSignature(site, report().runs[0]?.summary?.machine ?? ''))
      expect(findings().whole).toEqual(['fault not-issued 1'])
      expect(findings().followed).toEqual(['doubt not-released 1'])
    })
  })

  it('a roster that is not under the root key that the auditor knows serves for nothing', () => {
    onRecord(({ report }) => {
      const run = report(publicBytesOf(keyOf('birk'))).runs[0]
      expect(run?.verdicts.map((verdict) => verdict.answer)).toEqual([
        'findings',
        'cannot-tell',
        'cannot-tell',
        'good',
        'good'
      ])
      expect(run?.verdicts[0].findings.filter((one) => one.id === 'roster-unsound').length).toBe(1)
      expect(run?.verdicts[1].findings.map((one) => one.id)).toEqual(['not-released'])
      expect(run?.issue).toBeNull()
    })
  })

  it('where the chain breaks, no question is answered as if the lines from there on could be relied on', () => {
    onRecord(({ journal, after, report }) => {
      expect(report().runs[0]?.verdicts[0].checked.slice(0, 2)).toEqual([
        `Chain of ${lastSeq} entries, in canonical form`,
        `2 signatures of 2 good, over lines 1 to ${lastSeq}`
      ])
      const seq = signedSeq + 2
      const falsified = journal.replace('"3.2 V"', '"9.2 V"')
      expect(journal.split('\n')[seq - 1]).toContain('3.2 V')
      const findings = after(falsified)
      expect(findings).toEqual({
        whole: [`doubt unsigned-end ${signedSeq + 1}`, `fault chain-broken ${seq}`],
        followed: [`doubt may-be-changed ${seq}`],
        fit: [`doubt may-be-changed ${seq}`],
        timely: [`doubt may-be-changed ${seq}`],
        due: [`doubt may-be-changed ${seq}`]
      })
      const run = report().runs[0]
      expect(run?.verdicts[0].checked.slice(0, 3)).toEqual([
        `Chain of the ${seq - 1} lines before line ${seq}`,
        `Lines ${seq} to ${lastSeq}: ${lastSeq - seq + 1} entries follow the break; nothing of it may be relied on`,
        `1 signature of 2 stands before line ${seq} and still verifies, over lines 1 to ${signedSeq}`
      ])
      expect(run?.entries.filter((entry) => entry.mark !== '').map((entry) => entry.seq)).toEqual([seq])
    })
  })

  it('a line left out is one finding, whatever follows it', () => {
    onRecord(({ journal, after }) => {
      const lines = journal.split('\n')
      expect(after(lines.toSpliced(16, 1).join('\n')).whole).toEqual([
        `doubt unsigned-end ${signedSeq + 1}`,
        'fault chain-broken 16'
      ])
    })
  })

  it('chain and signatures are no good marks of a journal that is not whole', () => {
    onRecord(({ journal, after, report }) => {
      after(forge(journal, (entry) => (entry.seq === 4 ? inEvent(entry, { lock: '99' as LockId }) : entry)))
      const { checked } = report().runs[0]?.verdicts[0] ?? expect.fail('no run')
      expect(checked.slice(0, 2)).toEqual([
        `${lastSeq} lines chained to each other, which whoever can write the file can do anew`,
        '0 signatures of 2 verify'
      ])
    })
  })

  it('bytes behind the last line, and a whole entry set aside, are told', () => {
    onRecord(({ site, journal, after }) => {
      expect(after(`${journal}{"at"`).whole).toEqual(['doubt torn-line -'])
      writeFileSync(layout.tornLine(site, 'fan', 1), 'half a li')
      expect(after(journal).whole).toEqual([])
      writeFileSync(layout.tornLine(site, 'fan', 2), journal.split('\n')[3] ?? '')
      expect(after(journal).whole).toEqual(['doubt entry-set-aside -'])
    })
  })
})
