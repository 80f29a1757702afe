import { describe, expect, it } from 'vitest'
import { forge } from '../../fixtures/forge.js'
import { inEvent, keyFor, lastSeq, nothing, onRecord, seqOf, signedSeq } from '../../fixtures/on-record.js'
import { plantPeople, writeRoster } from '../../fixtures/plant.js'
import type { Site } from '../site.js'

describe('fit', () => {
  const withPeople = (change: (one: (typeof plantPeople)[number]) => (typeof plantPeople)[number]) => (site: Site) =>
    writeRoster(site, plantPeople.map(change), 2)

  it('a signature after the key was revoked is told, one before is not spoiled', () => {
    onRecord(({ site, findings, journal }) => {
      const at = JSON.parse(journal.split('\n')[signedSeq - 1] ?? '').at
      const revoke = (from: string) =>
        withPeople((one) => (one.id === 'runa' ? { ...one, revokedAt: from } : one))(site)
      revoke(new Date(Date.parse(at) + 1).toISOString())
      expect(findings()).toEqual(nothing)
      revoke(at)
      expect(findings().fit).toEqual([`fault key-revoked ${signedSeq}`])
      expect(findings().whole).toEqual([])
    })
  })

  it('who did not hold the qualification that day is told, entry by entry', () => {
    onRecord(({ site, findings }) => {
      withPeople((one) => (one.id === 'runa' ? { ...one, qualifications: [] } : one))(site)
      expect(findings().fit).toEqual([13, 14, 15, 16].map((seq) => `fault not-qualified ${seq}`))
    })
  })

  it('who is not on the roster is told once', () => {
    onRecord(({ site, findings }) => {
      writeRoster(
        site,
        plantPeople.filter((one) => one.id !== 'odd'),
        2
      )
      expect(findings().fit).toEqual(['fault not-on-roster 1'])
      expect(findings().whole).toEqual([`doubt unsigned-end ${signedSeq + 1}`, `fault signature-bad ${lastSeq}`])
    })
  })

  it('a step passed with a reading outside its limits is told, by arithmetic of its own', () => {
    onRecord(({ journal, after }) => {
      const dc = seqOf('reading') + 1
      for (const [value, expected] of [
        [49.9, 0],
        [50, 1],
        [-600, 1],
        [-49, 0]
      ] as const) {
        const changed = forge(
          journal,
          (entry) => (entry.seq === dc ? inEvent(entry, { value, typed: `${value} V` }) : entry),
          keyFor
        )
        const findings = after(changed)
        expect([value, findings.followed.length]).toEqual([value, expected])
      }
    })
  })
})
