import { readFileSync, writeFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { goldenSites } from '../../packages/records/fixtures/golden-sites.js'
import { keyOf, plantPeople } from '../../packages/records/fixtures/plant.js'
import { auditRun } from '../../packages/records/src/audit/audit-run.js'
import { readGrounds } from '../../packages/records/src/audit/evidence.js'
import { publicBytesOf } from '../../packages/records/src/public-key.js'
import { formatRoster, type Person, parseRoster, type Roster } from '../../packages/records/src/roster.js'
import { layout } from '../../packages/records/src/site.js'
import { goldenJournals, inCopyOf } from './tampering.js'

// What someone can do who has the root key, or finds an older roster that it signed: the journals stay as they are.

interface Change {
  readonly what: string
  readonly of: (person: Person) => Person
}

const ended = (person: Person, until: string): Person => ({
  ...person,
  qualifications: person.qualifications.map((held) => ({ ...held, validFrom: '2025-01-01', validUntil: until }))
})
const revoked = (person: Person, revokedAt: string): Person =>
  // Those before it ended by then.
  ({ ...person, revokedAt, formerKeys: (person.formerKeys ?? []).map((one) => ({ ...one, until: revokedAt })) })
const without = ({ formerKeys: _, keyFrom: __, ...person }: Person): Person => person

const changes: readonly Change[] = [
  { what: 'whose qualifications had lapsed the day before', of: (person) => ended(person, '2026-03-01') },
  {
    what: 'whose qualifications begin the day after',
    of: (person) => ({
      ...person,
      qualifications: person.qualifications.map((held) => ({ ...held, validFrom: '2026-03-03' }))
    })
  },
  { what: 'who never held any', of: (person) => ({ ...person, qualifications: [] }) },
  { what: 'whose keys were revoked a minute before', of: (person) => revoked(person, '2026-03-02T07:59:00.000Z') },
  {
    what: 'who has the key of someone else',
    of: (person) => ({ ...without(person), key: publicBytesOf(keyOf('stranger')) })
  },
  { what: 'who has no key', of: (person) => ({ ...without(person), key: null, revokedAt: null }) }
]

/** Odd holds nothing that anything asks for: his keys are what there is to spoil. */
const spoiled = ['birk', 'runa', 'odd'].flatMap((id) =>
  changes.filter(({ what }) => id !== 'odd' || what.includes('key')).map((change) => ({ id, ...change }))
)

function answersUnder(roster: Roster, key = 'root', trusted?: string): Promise<readonly string[]>[] {
  return goldenSites.map((golden) =>
    inCopyOf(golden, (site) => {
      const standing = parseRoster(readFileSync(layout.people(site)), '')
      if (!standing.ok) throw new Error(standing.faults[0].what)
      const { formerRoots, shiftHours } = standing.value
      const whole = {
        ...roster,
        ...(shiftHours === undefined ? {} : { shiftHours }),
        ...(formerRoots === undefined || key !== 'root' ? {} : { formerRoots })
      }
      writeFileSync(layout.people(site), formatRoster(whole, keyOf(key)))
      const grounds = readGrounds(site, trusted)
      return goldenJournals
        .filter((one) => one.golden === golden)
        .map(({ file, bytes }) => auditRun(grounds, file, bytes, { stories: false }).answer)
    })
  )
}

const rosterWith = (people: readonly Person[], root = 'root'): Roster => ({
  site: 'Sandholm waterworks',
  serial: 1,
  signedAt: '2026-02-01T07:00:00.000Z',
  root: publicBytesOf(keyOf(root)),
  people
})

describe.each(goldenSites)('the roster of format $version, signed by its root key', (golden) => {
  const read = parseRoster(readFileSync(layout.people(golden.site)), '')
  const roster: Roster = read.ok ? read.value : expect.fail('no roster')
  const journals = goldenJournals.filter((one) => one.golden === golden)

  it.each(spoiled)('with $id $what', async ({ id, of }) => {
    await inCopyOf(golden, (site) => {
      const changed = roster.people.map((one) => (one.id === id ? of(one) : one))
      writeFileSync(layout.people(site), formatRoster({ ...roster, people: changed }, keyOf('root')))
      const grounds = readGrounds(site)
      const answers = journals.map(({ file, bytes }) => auditRun(grounds, file, bytes, { stories: false }).answer)
      expect(answers).toContain('findings')
    })
  })

  it('with anyone taken off it', async () => {
    for (const { id } of roster.people) {
      const named = journals.some(({ entries }) => entries.some((entry) => entry.by === id)) || id === 'birk'
      await inCopyOf(golden, (site) => {
        const left = roster.people.filter((one) => one.id !== id)
        writeFileSync(layout.people(site), formatRoster({ ...roster, people: left }, keyOf('root')))
        const grounds = readGrounds(site)
        const answers = journals.map(({ file, bytes }) => auditRun(grounds, file, bytes).answer)
        expect(answers.includes('findings'), id).toBe(named)
      })
    }
  })

  it('with the keys of any two people exchanged', async () => {
    const keyed = roster.people.filter(({ key }) => key !== null)
    for (const one of keyed) {
      for (const other of keyed.filter(({ id }) => id > one.id)) {
        await inCopyOf(golden, (site) => {
          const swap = (person: Person): Person => {
            if (person.id === one.id) return { ...without(person), key: other.key }
            return person.id === other.id ? { ...without(person), key: one.key } : person
          }
          writeFileSync(
            layout.people(site),
            formatRoster({ ...roster, people: roster.people.map(swap) }, keyOf('root'))
          )
          const grounds = readGrounds(site)
          const answers = journals.map(({ file, bytes }) => auditRun(grounds, file, bytes).answer)
          expect(answers, `${one.id} and ${other.id}`).toContain('findings')
        })
      }
    }
  })
})

describe('the roster of another site', () => {
  const strangers = plantPeople.map((one) => ({
    ...one,
    key: one.key === null ? null : publicBytesOf(keyOf(`${one.id} elsewhere`))
  }))

  it('shows in every run without anything known from elsewhere: its keys signed nothing here', async () => {
    for (const answers of answersUnder(rosterWith(strangers, 'root elsewhere'), 'root elsewhere')) {
      expect(await answers).toEqual(['findings', 'findings'])
    }
  })

  it('shows, with the same people in it, to whoever knows the root key', async () => {
    const known = publicBytesOf(keyOf('root'))
    for (const answers of answersUnder(rosterWith(plantPeople, 'root elsewhere'), 'root elsewhere', known)) {
      expect(await answers).toEqual(['findings', 'findings'])
    }
  })
})
