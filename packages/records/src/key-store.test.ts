import { readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { inFolder, keyOf, plantSite, scriptedClock } from '../fixtures/plant.js'
import { formatKeyFile, leastScryptCost } from './key-file.js'
import { changePassphrase, keepKey, prepareKey, unlockKey } from './key-store.js'
import { loseKey, rotateKey } from './people-keys.js'
import { publicBytesOf } from './public-key.js'
import type { RecordsResult } from './result.js'
import { layout, type Site } from './site.js'

const cost = leastScryptCost

function value<Value>(result: RecordsResult<Value>): Value {
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}
const faultOf = (result: RecordsResult<unknown>): string => (result.ok ? '' : result.faults[0].id)

/** The plant with Runa's key in it; `ask` is about her. */
function withSite(
  body: (stage: {
    readonly site: Site
    readonly ask: Parameters<typeof rotateKey>[0] & { readonly cost: number }
  }) => void
): void {
  inFolder((folder) => {
    const site = plantSite(folder)
    keepKey(site, 'runa', keyOf('runa'), 'words of runa', cost)
    const clock = scriptedClock('2026-03-01T08:00:00.000Z')
    body({ site, ask: { site, root: keyOf('root'), clock, cost, id: 'runa', passphrase: 'new words of runa' } })
  })
}

describe('a passphrase', () => {
  it('is changed with the one before it alone; the key stays', () => {
    withSite((stage) => {
      const { site } = stage
      const before = publicBytesOf(value(unlockKey(site, 'runa', 'words of runa')))
      const change = (old: string, passphrase: string, owner = 'runa') =>
        faultOf(changePassphrase({ site, owner, old, passphrase, cost }))
      const file = layout.key(site, 'person-runa')
      const text = readFileSync(file, 'utf8')
      expect(change('words of odd', 'something longer')).toBe('wrong-passphrase')
      expect(change('words of runa', 'short')).toBe('passphrase-short')
      expect(change('words of runa', 'something longer', 'nobody')).toBe('no-key')
      expect(readFileSync(file, 'utf8')).toBe(text)
      expect(change('words of runa', 'something longer')).toBe('')
      expect(publicBytesOf(value(unlockKey(site, 'runa', 'something longer')))).toBe(before)
      expect(faultOf(unlockKey(site, 'runa', 'words of runa'))).toBe('wrong-passphrase')
    })
  })

  it('that does not fit is told in the same words as a file that was altered', () => {
    withSite(({ site }) => {
      const file = layout.key(site, 'person-runa')
      const text = readFileSync(file, 'utf8')
      const wrong = unlockKey(site, 'runa', 'words of odd')
      for (const part of ['salt=', 'nonce=', 'sealed: ', 'public: ']) {
        const at = text.indexOf(part) + part.length + 3
        writeFileSync(file, text.slice(0, at) + (text[at] === 'A' ? 'B' : 'A') + text.slice(at + 1))
        expect(unlockKey(site, 'runa', 'words of runa')).toEqual(wrong)
      }
    })
  })
})

describe('a key that changes while the computer dies', () => {
  it('is the old one as long as the roster does not name the new one', () => {
    withSite(({ site, ask }) => {
      prepareKey(site, 'runa', keyOf('stray'), 'never named', cost)
      expect(unlockKey(site, 'runa', 'words of runa').ok).toBe(true)
      expect(readdirSync(join(site.folder, 'keys')).filter((name) => name.endsWith('.next'))).toEqual([])
      value(rotateKey(ask))
      expect(unlockKey(site, 'runa', 'new words of runa').ok).toBe(true)
    })
  })

  it('is the new one as soon as it does', () => {
    withSite(({ site, ask }) => {
      const file = layout.key(site, 'person-runa')
      const old = readFileSync(file)
      value(rotateKey(ask))
      // As it lies when the crash came between the roster and the key file.
      renameSync(file, `${file}.next`)
      writeFileSync(file, old, { mode: 0o600 })
      expect(unlockKey(site, 'runa', 'new words of runa').ok).toBe(true)
    })
  })
})

describe('a private key and its passphrase', () => {
  it('stand nowhere in what is written or told, whatever is done with them', () => {
    withSite(({ site, ask }) => {
      const seedOf = (words: string): string => value(unlockKey(site, 'runa', words)).export({ format: 'jwk' }).d ?? ''
      const told: unknown[] = []
      const seeds = [seedOf('words of runa')]
      told.push(rotateKey(ask))
      seeds.push(seedOf('new words of runa'))
      told.push(changePassphrase({ site, owner: 'runa', old: 'new words of runa', passphrase: 'third words', cost }))
      told.push(changePassphrase({ site, owner: 'runa', old: 'new words of runa', passphrase: 'other words', cost }))
      told.push(changePassphrase({ site, owner: 'runa', old: 'third words', passphrase: 'short!!', cost }))
      told.push(unlockKey(site, 'runa', 'words of nobody'), loseKey({ ...ask, passphrase: 'short!!' }))
      told.push(loseKey({ ...ask, passphrase: 'fourth words' }))
      seeds.push(seedOf('fourth words'))
      const files = readdirSync(site.folder, { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile())
        .map((entry) => readFileSync(join(entry.parentPath, entry.name), 'latin1'))
      const text = [JSON.stringify(told), ...files].join('\n')
      const secrets = seeds.flatMap((seed) => {
        const bytes = Buffer.from(seed, 'base64url')
        return [seed, bytes.toString('hex'), bytes.toString('base64'), bytes.toString('latin1')]
      })
      expect(new Set(seeds).size).toBe(3)
      expect(text).toContain('wrong-passphrase')
      const typed = ['words of runa', 'third words', 'other words', 'words of nobody', 'fourth words', 'short!!']
      for (const secret of [...secrets, ...typed]) expect(text.includes(secret)).toBe(false)
    })
  })

  it('make another file each time, so that two with one passphrase cannot be told to have it', () => {
    const [one, other] = [1, 2].map(() => formatKeyFile('person-runa', keyOf('runa'), 'words of runa', cost))
    expect(publicBytesOf(keyOf('runa'))).toBe(/^public: (.*)$/m.exec(one ?? '')?.[1])
    for (const part of [/salt=(.*)/, /nonce=(.*)/, /sealed: (.*)/]) {
      expect(part.exec(one ?? '')?.[1]).not.toBe(part.exec(other ?? '')?.[1])
    }
  })
})
