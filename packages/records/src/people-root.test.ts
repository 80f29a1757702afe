import { copyFileSync, readFileSync, renameSync, writeFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { inFolder, keyOf, type ScriptedClock, scriptedClock } from '../fixtures/plant.js'
import { tester } from '../fixtures/rated-fan.js'
import { addInstrument, readInstruments } from './instruments/keep-instruments.js'
import { leastScryptCost } from './key-file.js'
import { unlockKey } from './key-store.js'
import { addPerson, initSite } from './people.js'
import { replaceRoot, rotateRoot } from './people-root.js'
import { thumbprint } from './public-key.js'
import type { RecordsResult } from './result.js'
import { formatRoster, parseRoster, type Roster } from './roster.js'
import { readRoster } from './roster-file.js'
import { rootKeysOf } from './roster-keys.js'
import { layout, type Site } from './site.js'

const cost = leastScryptCost

function value<Value>(result: RecordsResult<Value>): Value {
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}
const faultOf = (result: RecordsResult<unknown>): string => (result.ok ? '' : result.faults[0].id)
const whyOf = (result: RecordsResult<unknown>): string => (result.ok ? '' : result.faults[0].what)

interface Stage {
  readonly site: Site
  readonly clock: ScriptedClock
  /** Thumbprint of the root key that stands now. */
  readonly print: () => string
  /** The next root key, by way of the one before. */
  readonly rotate: (from: string, to: string) => void
}

function withSite(body: (stage: Stage) => void): void {
  inFolder((folder) => {
    const clock = scriptedClock('2026-03-01T08:00:00.000Z')
    const site = value(initSite({ folder, name: 'Sandholm waterworks', passphrase: 'first root', clock, cost }))
    const root = value(unlockKey(site, 'site-root', 'first root'))
    value(addInstrument({ site, root, clock, instrument: tester('VT-7') }))
    body({
      site,
      clock,
      print: () => thumbprint(value(readRoster(site)).root),
      rotate: (from, to) => {
        clock.pass(3600)
        const old = value(unlockKey(site, 'site-root', from))
        value(rotateRoot({ site, root: old, passphrase: to, clock, cost }))
      }
    })
  })
}

describe('a root key that is exchanged in good order', () => {
  it('is followed by whoever knows any of those before it', () => {
    withSite(({ site, print, rotate, clock }) => {
      const prints = [print()]
      for (const [from, to] of [
        ['first root', 'second root'],
        ['second root', 'third root']
      ] as const) {
        rotate(from, to)
        prints.push(print())
      }
      expect(new Set(prints).size).toBe(3)
      for (const known of prints) expect([known, readRoster(site, known).ok]).toEqual([known, true])
      expect(whyOf(readRoster(site, thumbprint(keyOf('odd').export({ format: 'jwk' }).x ?? '')))).toContain(
        'is not the one that was given.'
      )
      expect(value(readInstruments(site))?.serial).toBe(3)
      expect(faultOf(unlockKey(site, 'site-root', 'second root'))).toBe('wrong-passphrase')
      const root = value(unlockKey(site, 'site-root', 'third root'))
      expect(
        addPerson({ site, root, clock, id: 'liv', name: 'Liv Haug', qualifications: [], passphrase: null }).ok
      ).toBe(true)
      expect(readRoster(site, prints[0]).ok).toBe(true)
    })
  })

  it('is followed only where every handover holds', () => {
    withSite(({ site, print, rotate }) => {
      const first = print()
      const firstKey = value(unlockKey(site, 'site-root', 'first root'))
      rotate('first root', 'second root')
      const roster = value(readRoster(site))
      const root = value(unlockKey(site, 'site-root', 'second root'))
      const [one] = roster.formerRoots ?? []
      if (one === undefined) return expect.fail('no handover')
      const read = (change: Partial<Roster>, key = root): RecordsResult<Roster> =>
        parseRoster(Buffer.from(formatRoster({ ...roster, ...change }, key)), 'people.yaml', first)
      expect(read({}).ok).toBe(true)
      const forged: readonly Partial<Roster>[] = [
        { formerRoots: [{ ...one, handover: null }] },
        { formerRoots: [{ ...one, until: '2026-03-01T09:00:01.000Z' }] },
        { formerRoots: [{ ...one, handover: `${one.handover?.slice(0, -4)}AAAA` }] },
        { site: 'Another waterworks' },
        { formerRoots: [] },
        { formerRoots: [one, { ...one, key: roster.root }] }
      ]
      expect(forged.map((change) => faultOf(read(change)))).toEqual(forged.map(() => 'roster-unsound'))
      // Whoever takes the site over with a root key of their own has no handover to it.
      const own = keyOf('odd').export({ format: 'jwk' }).x ?? ''
      expect(whyOf(read({ root: own }, keyOf('odd')))).toContain('The handover of')
      // And the old key signs no roster any more: its place in the file is that of the new one.
      expect(faultOf(read({}, firstKey))).toBe('roster-unsound')
    })
  })
})

describe('a root key that is lost or stolen', () => {
  it('hands nothing over: whoever knows it has to be told the new one', () => {
    withSite(({ site, clock, print, rotate }) => {
      const first = print()
      rotate('first root', 'second root')
      const second = print()
      clock.pass(60)
      value(replaceRoot({ site, because: 'lost', passphrase: 'third root', clock, cost }))
      const third = print()
      for (const known of [first, second]) {
        expect(whyOf(readRoster(site, known))).toContain(`${second} was lost on ${clock.now().at}`)
      }
      expect(readRoster(site, third).ok).toBe(true)
      rotate('third root', 'fourth root')
      expect(readRoster(site, third).ok).toBe(true)
      expect(readRoster(site, second).ok).toBe(false)
      const roster = value(readRoster(site))
      expect(rootKeysOf(roster).map(thumbprint)).toEqual([print(), third])
      expect(readInstruments(site).ok).toBe(true)
    })
  })

  it('makes the handovers doubted that were made since it was stolen', () => {
    withSite(({ site, clock, print, rotate }) => {
      const first = print()
      clock.pass(60)
      const since = clock.now().at
      rotate('first root', 'second root')
      const second = print()
      expect(readRoster(site, first).ok).toBe(true)
      value(replaceRoot({ site, because: 'stolen', since, passphrase: 'third root', clock, cost }))
      for (const known of [first, second]) expect(whyOf(readRoster(site, known))).toContain('was stolen on')
      expect(value(readRoster(site)).formerRoots?.map(({ until, because }) => [until, because])).toEqual([
        [since, 'stolen'],
        [since, 'stolen']
      ])
      const ask = { site, because: 'stolen', passphrase: 'fourth root', clock, cost } as const
      expect(faultOf(replaceRoot({ ...ask, since: '2099-01-01T00:00:00Z' }))).toBe('theft-not-yet')
      expect(faultOf(replaceRoot({ ...ask, passphrase: 'short' }))).toBe('passphrase-short')
    })
  })

  it('signs no list of instruments any more', () => {
    withSite(({ site, clock }) => {
      const file = layout.instruments(site)
      const list = readFileSync(file)
      value(replaceRoot({ site, because: 'stolen', passphrase: 'second root', clock, cost }))
      writeFileSync(file, list)
      expect(faultOf(readInstruments(site))).toBe('instruments-unsound')
    })
  })
})

describe('a root key that changes while the computer dies', () => {
  it('is the new one, with its list of instruments, as soon as the roster names it', () => {
    withSite(({ site, clock, rotate }) => {
      const [key, list] = [layout.key(site, 'site-root'), layout.instruments(site)]
      copyFileSync(key, `${key}.old`)
      copyFileSync(list, `${list}.old`)
      rotate('first root', 'second root')
      // As it lies when the crash came right after the roster was written.
      for (const file of [key, list]) {
        renameSync(file, `${file}.next`)
        renameSync(`${file}.old`, file)
      }
      expect(readInstruments(site).ok).toBe(true)
      const root = value(unlockKey(site, 'site-root', 'second root'))
      expect(value(addInstrument({ site, root, clock, instrument: tester('VT-8') })).instruments.length).toBe(2)
    })
  })

  it('is the old one as long as the roster does not', () => {
    withSite(({ site, clock, rotate }) => {
      const [key, list, people] = [layout.key(site, 'site-root'), layout.instruments(site), layout.people(site)]
      for (const file of [key, list, people]) copyFileSync(file, `${file}.old`)
      rotate('first root', 'second root')
      // As it lies when the crash came right before the roster was written.
      renameSync(`${people}.old`, people)
      for (const file of [key, list]) {
        renameSync(file, `${file}.next`)
        renameSync(`${file}.old`, file)
      }
      expect(value(readInstruments(site))?.serial).toBe(1)
      const root = value(unlockKey(site, 'site-root', 'first root'))
      expect(value(addInstrument({ site, root, clock, instrument: tester('VT-8') })).serial).toBe(2)
      expect(readInstruments(site).ok).toBe(true)
    })
  })
})
