import type { KeyObject } from 'node:crypto'
import { chmodSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { inFolder, keyOf, plantPeople, plantSite, scriptedClock } from '../fixtures/plant.js'
import { formatKeyFile, leastScryptCost, openKeyFile } from './key-file.js'
import { addPerson, initSite, qualifyPerson, revokePerson, unlockKey } from './people.js'
import { publicBytesOf } from './public-key.js'
import type { RecordsResult } from './result.js'
import { holdsAt, keyHoldsAt, personOf, readRoster } from './roster-file.js'
import type { Site } from './site.js'

const cost = leastScryptCost
const held = { is: 'electrical-lv', validFrom: '2026-01-01', validUntil: '2026-06-30' }

function value<Value>(result: RecordsResult<Value>): Value {
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}
const faultOf = (result: RecordsResult<unknown>): string => (result.ok ? '' : result.faults[0].id)

function withSite(body: (site: Site, root: KeyObject) => void): void {
  inFolder((folder) => {
    const site = value(
      initSite({ folder, name: 'Sandholm waterworks', passphrase: 'root of sandholm', clock: scriptedClock(), cost })
    )
    body(site, value(unlockKey(site, 'site-root', 'root of sandholm')))
  })
}

describe('the people of a site', () => {
  it('are added, qualified and revoked under the root key', () => {
    withSite((site, root) => {
      const clock = scriptedClock()
      const ask = { site, root, clock, cost }
      value(addPerson({ ...ask, id: 'runa', name: 'Runa Solvik', qualifications: [held], passphrase: 'eight or more' }))
      value(addPerson({ ...ask, id: 'liv', name: 'Liv Haug', qualifications: [], passphrase: null }))
      value(qualifyPerson({ site, root, clock, id: 'liv', qualifications: [held] }))
      value(revokePerson({ site, root, clock, id: 'runa', from: '2026-05-01T00:00:00Z' }))
      value(revokePerson({ site, root, clock, id: 'runa', from: '2026-05-09T00:00:00Z' }))
      const roster = value(readRoster(site))
      expect(roster.serial).toBe(6)
      const [runa, liv] = [personOf(roster, 'runa'), personOf(roster, 'liv')]
      if (runa === null || liv === null) return expect.fail('someone is missing')
      expect(liv.key).toBeNull()
      expect(publicBytesOf(value(unlockKey(site, 'runa', 'eight or more')))).toBe(runa.key)
      expect(keyHoldsAt(runa, '2026-04-30T23:59:59.999Z')).toBe(true)
      expect(keyHoldsAt(runa, '2026-05-01T00:00:00.000Z')).toBe(false)
      expect(keyHoldsAt(liv, '2026-04-30T00:00:00Z')).toBe(false)
      const days = ['2025-12-31T23:59:59Z', '2026-01-01T00:00:00Z', '2026-06-30T23:59:59Z', '2026-07-01T00:00:00Z']
      expect(days.map((day) => holdsAt(liv, ['electrical-lv'], day))).toEqual([false, true, true, false])
      expect(holdsAt(liv, ['electrical-lv', 'crane'], '2026-02-01T00:00:00Z')).toBe(false)
    })
  })

  it('are refused under a name or an id that cannot stand in a record', () => {
    withSite((site, root) => {
      const add = (id: string, name: string, passphrase: string | null = null) =>
        faultOf(addPerson({ site, root, id, name, passphrase, qualifications: [], clock: scriptedClock(), cost }))
      expect(add('odd', 'Odd Teig')).toBe('')
      expect(add('ODD', 'Odd Vik')).toBe('id-taken')
      expect(add('../odd', 'Odd Vik')).toBe('not-an-id')
      expect(add('site-root', 'Odd Vik')).toBe('not-an-id')
      expect(add('vik', 'Odd \u202eVik')).toBe('not-a-name')
      expect(add('vik', ' ')).toBe('not-a-name')
      expect(add('vik', 'Odd Vik', 'short')).toBe('passphrase-short')
      const ask = { site, root, id: 'vik', name: 'Odd Vik', qualifications: [], clock: scriptedClock(), cost }
      expect(addPerson({ ...ask, passphrase: 'seven77' })).toMatchObject({
        faults: [{ file: '', what: 'The passphrase of the new key of vik has fewer than eight characters.' }]
      })
    })
  })

  it('are changed by nobody but the holder of the root key', () => {
    withSite((site) => {
      const ask = { site, root: keyOf('birk'), clock: scriptedClock(), id: 'vik', name: 'Odd Vik', qualifications: [] }
      expect(faultOf(addPerson({ ...ask, passphrase: null }))).toBe('not-the-root-key')
      expect(value(readRoster(site)).people).toEqual([])
    })
  })

  it('are not changed into a roster that nobody could read', () => {
    withSite((site, root) => {
      const clock = scriptedClock()
      value(addPerson({ site, root, clock, id: 'liv', name: 'Liv Haug', qualifications: [held], passphrase: null }))
      const text = readFileSync(join(site.folder, 'people.yaml'), 'utf8')
      const february = { ...held, validUntil: '2026-02-30' }
      expect(faultOf(qualifyPerson({ site, root, clock, id: 'liv', qualifications: [february] }))).toBe(
        'change-refused'
      )
      expect(faultOf(revokePerson({ site, root, clock, id: 'liv', from: 'yesterday' }))).toBe('change-refused')
      expect(faultOf(revokePerson({ site, root, clock, id: 'nobody', from: '2026-05-01T00:00:00Z' }))).toBe(
        'no-such-person'
      )
      expect(readFileSync(join(site.folder, 'people.yaml'), 'utf8')).toBe(text)
    })
  })

  it('stand in a file that is read only whole and signed', () => {
    inFolder((folder) => {
      const site = plantSite(folder)
      const file = join(folder, 'people.yaml')
      const text = readFileSync(file, 'utf8')
      expect(value(readRoster(site)).people).toEqual(plantPeople)
      for (const changed of [
        text.replace('is: electrical-lv', 'is: electrical-mv'),
        text.replace(/signature: .*\n/, ''),
        `${text}\n`,
        text.replace('Runa', 'Runa # ')
      ]) {
        writeFileSync(file, changed)
        expect(faultOf(readRoster(site))).toBe('roster-unsound')
      }
    })
  })

  it('do not get a second site in the same folder', () => {
    withSite((site) => {
      const ask = { folder: site.folder, name: 'Another', passphrase: 'another root', clock: scriptedClock(), cost }
      expect(faultOf(initSite(ask))).toBe('site-exists')
    })
  })
})

describe('a private key at rest', () => {
  it('announces itself, is for its owner alone and opens with its passphrase only', () => {
    withSite((site) => {
      const folder = join(site.folder, 'keys')
      expect(readdirSync(folder)).toEqual(['site-root.key'])
      const file = join(folder, 'site-root.key')
      expect(statSync(file).mode & 0o777).toBe(0o600)
      expect(statSync(folder).mode & 0o777).toBe(0o700)
      const text = readFileSync(file, 'utf8')
      expect(text.split('\n')[0]).toBe('lockwright PRIVATE KEY, version 1')
      expect(text).toContain(`N=${2 ** 15} r=8 p=1`)
      const wrong = unlockKey(site, 'site-root', 'root of Sandholm')
      expect(wrong).toMatchObject({ ok: false, faults: [{ id: 'wrong-passphrase' }] })
      expect(faultOf(unlockKey(site, 'nobody', 'root of sandholm'))).toBe('no-key')
      expect(faultOf(unlockKey(site, '../keys/site-root', 'root of sandholm'))).toBe('no-key')
      chmodSync(file, 0o640)
      expect(faultOf(unlockKey(site, 'site-root', 'root of sandholm'))).toBe('key-exposed')
    })
  })

  it('holds the key nowhere in the clear', () => {
    const key = keyOf('runa')
    const seed = key.export({ format: 'jwk' }).d ?? ''
    const text = formatKeyFile('person-runa', key, 'a passphrase', cost)
    expect(seed.length).toBe(43)
    expect(text).not.toContain(seed)
    expect(text).not.toContain(Buffer.from(seed, 'base64url').toString('hex'))
  })

  it('opens however the same letters were typed', () => {
    const text = formatKeyFile('person-runa', keyOf('runa'), 'nøkkel på båt', cost)
    const opened = openKeyFile(text, '', 'person-runa', 'nøkkel på båt'.normalize('NFD'))
    expect(publicBytesOf(value(opened))).toBe(publicBytesOf(keyOf('runa')))
  })

  it('is refused for another owner, for a cost that guards nothing, and for any change', () => {
    const text = formatKeyFile('person-runa', keyOf('runa'), 'a passphrase', cost)
    const open = (changed: string, owner = 'person-runa') => faultOf(openKeyFile(changed, '', owner, 'a passphrase'))
    expect(open(text)).toBe('')
    expect(open(text, 'person-odd')).toBe('key-of-another')
    expect(open(text.replace('owner: person-runa', 'owner: person-odd'), 'person-odd')).toBe('wrong-passphrase')
    expect(open(text.replace(`N=${cost}`, 'N=16384'))).toBe('key-file-damaged')
    expect(open(text.replace(`N=${cost}`, 'N=1073741824'))).toBe('key-file-damaged')
    expect(open(text.slice(0, -1))).toBe('key-file-damaged')
    expect(open(text.replace(/sealed: (.)/, (_, first) => `sealed: ${first === 'A' ? 'B' : 'A'}`))).toBe(
      'wrong-passphrase'
    )
    expect(() => formatKeyFile('person-runa', keyOf('runa'), 'a passphrase', 2 ** 14)).toThrow(RangeError)
  })
})
