import { generateKeyPairSync } from 'node:crypto'
import { readFileSync, writeFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { inFolder, keyOf, plantPeople, plantSite, scriptedClock, writeRoster } from '../../fixtures/plant.js'
import type { RunId } from '../entry.js'
import { unlockKey } from '../people.js'
import { rotateRoot } from '../people-root.js'
import type { RecordsResult } from '../result.js'
import type { Site } from '../site.js'
import { appendLeaves } from './append-leaves.js'
import { checkLog } from './check-log.js'
import { formatCheckpoint, parseCheckpoint } from './checkpoint.js'
import type { Leaf } from './leaf.js'
import { logFolder } from './log-folder.js'
import { signLog } from './sign-log.js'
import { signNote } from './signed-note.js'

const leaf = (n: number): Leaf => ({
  format: 'lockwright-leaf/1',
  run: `run-${n}` as RunId,
  head: 'ab'.repeat(32),
  entries: 5,
  machine: 'cd'.repeat(32),
  procedure: 'F12-BEARING',
  revision: 2,
  equipment: 'F-12',
  mode: 'issued',
  status: 'finished',
  closedAt: '2026-03-02T09:00:00.000Z',
  locks: []
})

function value<Value>(result: RecordsResult<Value>): Value {
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

const add = (site: Site, from: number, to: number): void => {
  value(
    appendLeaves(
      site,
      Array.from({ length: to - from }, (_, at) => leaf(from + at))
    )
  )
}

describe('checking only what is new', () => {
  it('reads the leaves since the checkpoint and no others, and still finds the log changed where it looks', () => {
    inFolder((folder) => {
      const site = plantSite(folder)
      add(site, 0, 2990)
      const { note } = value(signLog(site, keyOf('root')))
      add(site, 2990, 3000)
      const check = (runs: 'all' | 'new') => value(checkLog({ site, kept: note, runs }))
      // None of these runs has a journal, so each leaf that was looked at is told.
      expect(check('new').findings.map(({ id, number }) => `${id} ${number}`)).toEqual(
        Array.from({ length: 10 }, (_, at) => `run-removed ${2990 + at}`)
      )
      expect(check('new').root).toEqual(check('all').root)
      const leaves = readFileSync(logFolder.leaves(site), 'utf8')
      writeFileSync(logFolder.leaves(site), leaves.replace('run-7"', 'run-X"'))
      expect(check('new').findings.length).toBe(10)
      expect(check('all').findings[0]?.id).toBe('log-forked')
      writeFileSync(logFolder.leaves(site), leaves.replace('run-2995"', 'run-X"'))
      expect(check('new').findings.map(({ id }) => id)).toContain('log-tiles')
    })
  })

  it('does not believe tiles that do not lead to the checkpoint', () => {
    inFolder((folder) => {
      const site = plantSite(folder)
      add(site, 0, 300)
      const { note } = value(signLog(site, keyOf('root')))
      const tile = logFolder.tile(site, { level: 1, index: 0, width: 1 })
      const bytes = readFileSync(tile)
      bytes[5] = (bytes[5] ?? 0) ^ 1
      writeFileSync(tile, bytes)
      const checked = value(checkLog({ site, kept: note, runs: 'new' }))
      // The leaves themselves are worked out instead: they are what was signed, and only the tile is not.
      const found = checked.findings.map(({ id }) => id)
      expect([found.includes('log-forked'), found.includes('log-tiles')]).toEqual([false, true])
      expect(checked.from).toBe(0)
    })
  })
})

describe('a fork', () => {
  it('is told though whoever has the root key signed it too', () => {
    inFolder((folder) => {
      const site = plantSite(folder)
      add(site, 0, 5)
      const { note, origin } = value(signLog(site, keyOf('root')))
      const said = parseCheckpoint(`${note.split('\n\n')[0]}\n`)
      const other = signNote(
        formatCheckpoint({ origin, size: said?.size ?? 0, root: Buffer.alloc(32, 7) }),
        origin,
        keyOf('root')
      )
      expect(value(checkLog({ site, kept: other })).findings[0]).toMatchObject({ id: 'log-forked', weight: 'fault' })
      // And it is not signed over: the checkpoint that lies in the folder is what the next one has to go on from.
      writeFileSync(logFolder.checkpoint(site), other)
      expect(signLog(site, keyOf('root'))).toMatchObject({ ok: false, faults: [{ id: 'log-forked' }] })
    })
  })

  it('is not what a checkpoint that a stranger signed shows: that is refused', () => {
    inFolder((folder) => {
      const site = plantSite(folder)
      add(site, 0, 5)
      const { note, origin } = value(signLog(site, keyOf('root')))
      const stranger = generateKeyPairSync('ed25519').privateKey
      const forged = signNote(`${note.split('\n\n')[0]}\n`, origin, stranger)
      expect(checkLog({ site, kept: forged })).toMatchObject({ ok: false, faults: [{ id: 'checkpoint-unsound' }] })
    })
  })
})

describe('a new root key', () => {
  it('goes on with the log under its name, and what was signed before it still holds', () => {
    inFolder((folder) => {
      const site = plantSite(folder)
      writeRoster(site, plantPeople)
      add(site, 0, 5)
      const before = value(signLog(site, keyOf('root')))
      const clock = scriptedClock('2026-04-01T08:00:00.000Z')
      value(rotateRoot({ site, root: keyOf('root'), passphrase: 'another root of sandholm', clock, cost: 2 ** 15 }))
      const root = value(unlockKey(site, 'site-root', 'another root of sandholm'))
      add(site, 5, 8)
      const after = value(signLog(site, root))
      expect(after.origin).toBe(before.origin)
      for (const kept of [before.note, after.note]) {
        const { findings } = value(checkLog({ site, kept }))
        expect(findings.filter(({ id }) => id !== 'run-removed')).toEqual([])
      }
    })
  })
})
