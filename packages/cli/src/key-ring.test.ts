import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { PersonId } from '@lockwright/machine'
import { addPerson, initSite, loseKey, systemClock, unlockKey } from '@lockwright/records'
import { expect, it } from 'vitest'
import { keyRing } from './key-ring.js'

// The least cost that a key file may have; the tests open several.
const cost = 2 ** 15
const runa = 'runa' as PersonId
const odd = 'odd' as PersonId

it('tries a passphrase so often for one person and no more, until the command is begun again', () => {
  const folder = mkdtempSync(join(tmpdir(), 'lockwright-ring-'))
  try {
    const init = initSite({ folder, name: 'Sandholm waterworks', passphrase: 'root words', clock: systemClock, cost })
    if (!init.ok) return expect.fail(JSON.stringify(init.faults))
    const site = init.value
    const root = unlockKey(site, 'site-root', 'root words')
    if (!root.ok) return expect.fail(JSON.stringify(root.faults))
    const ask = { site, root: root.value, clock: systemClock, cost, qualifications: [], passphrase: 'own words' }
    addPerson({ ...ask, id: 'runa', name: 'Runa Solvik' })
    addPerson({ ...ask, id: 'odd', name: 'Odd Teig' })
    const now = () => systemClock.now().at
    const ring = keyRing(site, now)
    if (ring === null) return expect.fail('no ring')
    const told = (words: string, person = runa): string => {
      const opened = ring.open(person, words)
      return opened.ok ? '' : opened.why
    }
    expect(told('own words')).toBe('')
    const wrong = [1, 2, 3, 4, 5].map((number) => told(`no words ${number}`))
    expect(new Set(wrong)).toEqual(
      new Set(['The passphrase does not open the key of `runa`, or the file was altered.'])
    )
    expect(told('own words')).toContain('typed 5 times for `runa`')
    expect(told('own words', odd)).toBe('')
    const again = keyRing(site, now)?.open(runa, 'own words')
    expect(again?.ok).toBe(true)
    expect([ring.has(runa), ring.has('nobody' as PersonId)]).toEqual([true, false])
    loseKey({ ...ask, id: 'runa', passphrase: null })
    expect(ring.has(runa)).toBe(false)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
})
