import { readFileSync } from 'node:fs'
import { addInstrument, addPerson, issue, type RecordsResult, revokePerson, type Site } from '@lockwright/records'
import { afterAll, describe, expect, it } from 'vitest'
import { type Fault, faultyDisk, unsyncedDisk } from '../../packages/records/fixtures/faulty-disk.js'
import { inFolder, keyOf, scriptedClock, signerOf } from '../../packages/records/fixtures/plant.js'
import { tester } from '../../packages/records/fixtures/rated-fan.js'
import { layDown, readFolder } from '../../packages/records/fixtures/simulated-disk.js'
import { onDisk } from '../../packages/records/src/disk/disk-in-use.js'
import { layout } from '../../packages/records/src/site.js'
import { counted } from './counted.js'
import { issuedSite, libraryMachine } from './scripted-run.js'

const count = counted(0)
const machine = libraryMachine('booster-pump-precharge.md')
const next = { ...machine, revision: machine.revision + 1 }
const clock = scriptedClock('2026-03-02T12:00:00.000Z')
const root = keyOf('root')

afterAll(() => count.tell('A site folder that cannot be changed'))

type Deed = (site: Site) => RecordsResult<unknown>
const deeds: readonly (readonly [string, Deed])[] = [
  ['a machine is issued', (site) => issue({ site, machine: next, signer: signerOf('birk'), clock })],
  ['a key is revoked', (site) => revokePerson({ site, id: 'odd', from: '2026-03-02T11:00:00Z', root, clock })],
  [
    'a person is added',
    (site) =>
      addPerson({ site, id: 'liv', name: 'Liv Haug', qualifications: [], passphrase: null, root, clock, cost: 32_768 })
  ],
  ['an instrument is added', (site) => addInstrument({ site, instrument: tester('T9'), root, clock })]
]

describe.each(deeds)('where %s', (_, deed) => {
  it('a disk that refuses at any operation leaves what there was, says so, and the next try comes through', () => {
    inFolder((folder) => {
      onDisk(unsyncedDisk, () => {
        const site = issuedSite(folder, machine)
        const before = readFolder(folder)
        const people = readFileSync(layout.people(site))
        for (const code of ['ENOSPC', 'EROFS', 'EIO'] as const) {
          for (let at = 0; ; at += 1) {
            let struck = 0
            const decide = (_asked: unknown, number: number): Fault | null => {
              if (number < at) return null
              struck += 1
              return { code, bytes: 3 }
            }
            const done = onDisk(faultyDisk(unsyncedDisk, decide), () => deed(site))
            if (struck === 0) {
              expect(done.ok).toBe(true)
              layDown(folder, before)
              break
            }
            count.one(code)
            if (!done.ok) {
              expect(done.faults[0].id).toBe('disk-refused')
              expect(done.faults[0].what).toContain(code)
            }
            // Old or new, never half: what can be read is sound.
            const now = readFileSync(layout.people(site))
            if (!done.ok && now.length === people.length) expect(now.equals(people)).toBe(true)
            const again = deed(site)
            // Where only the last sync was refused, it stands there already; adding twice is told.
            if (!again.ok) expect(again.faults[0].id).toMatch(/taken|there/)
            layDown(folder, before)
          }
        }
      })
    })
  })
})

it('counted what was injected above', () => {
  expect(count.total()).toBeGreaterThanOrEqual(100)
})
