import { appendFileSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { faultyDisk } from '../../fixtures/faulty-disk.js'
import { sha256Hex } from '../digest.js'
import { realDisk } from '../disk/disk.js'
import { onDisk } from '../disk/disk-in-use.js'
import { openJournal } from '../journal.js'
import { layout, makeFolders, type Site } from '../site.js'
import { fileOf, finished, newRoot, note, runOf, sampleLines, sampleRoster } from './conformance/sample-records.js'
import { conformance } from './conformance.js'
import { folderStore } from './folder-store.js'
import type { Appended, Kept, Store, Superseded } from './store.js'
import { isStoreFailure } from './store-failure.js'

let site: Site
let store: Store
beforeEach(() => {
  site = makeFolders(mkdtempSync(join(tmpdir(), 'lockwright-store-')))
  store = folderStore(site)
})
afterEach(() => rmSync(site.folder, { recursive: true, force: true }))

const pump = runOf('pump')
const lines = sampleLines({ events: [note('x'), note('y'), finished] })
const journal = (): string => layout.journal(site, 'pump')

describe('a site folder as a store', () => {
  it.each(conformance)('$promise', ({ check }) => check({ store, again: async () => folderStore(site) }))

  it('sets a torn last line aside before it adds to it, and keeps it', async () => {
    writeFileSync(journal(), Buffer.concat([fileOf(lines.slice(0, 2)), Buffer.from('{"at":"20')]))
    expect(await store.append(pump, 3, lines.slice(2))).toEqual({ kind: 'appended', added: 2, entries: 4 })
    expect(readFileSync(journal())).toEqual(fileOf(lines))
    expect(await store.documents('runs')).toEqual([{ path: 'runs/pump.torn-1', sha256: sha256Hex('{"at":"20') }])
    expect(Buffer.from((await store.document('runs/pump.torn-1')) ?? []).toString()).toBe('{"at":"20')
  })

  it('leaves a torn last line alone where nothing is added', async () => {
    writeFileSync(journal(), Buffer.concat([fileOf(lines.slice(0, 2)), Buffer.from('{"at":"20')]))
    expect(await store.append(pump, 1, lines.slice(0, 2))).toEqual({ kind: 'appended', added: 0, entries: 2 })
    expect(readdirSync(layout.runs(site))).toEqual(['pump.jsonl'])
  })

  it('adds nothing to a damaged journal', async () => {
    const damaged = fileOf(lines.slice(0, 3)).toString().replace('"text":"x"', '"text":"z"')
    writeFileSync(journal(), damaged)
    const refused = await store.append(pump, 4, lines.slice(3))
    expect(refused).toMatchObject({ kind: 'refused', fault: { id: 'chain-broken', line: 2 } })
    expect(readFileSync(journal(), 'utf8')).toBe(damaged)
  })

  it('adds nothing to a journal that a runner writes, and passes over what stands in it', async () => {
    writeFileSync(journal(), fileOf(lines.slice(0, 2)))
    const runner = openJournal(journal())
    if (!runner.ok) return expect.fail('not opened')
    expect(await store.append(pump, 1, lines)).toMatchObject({ kind: 'refused', fault: { id: 'in-use' } })
    expect(await store.append(pump, 1, lines.slice(0, 2))).toMatchObject({ kind: 'appended', added: 0 })
    runner.value.close()
    expect(await store.append(pump, 1, lines)).toMatchObject({ kind: 'appended', added: 2 })
  })

  it('names a journal without a readable opening, and lists the others', async () => {
    await store.append(pump, 1, lines)
    writeFileSync(layout.journal(site, 'empty'), '')
    writeFileSync(layout.journal(site, 'noise'), 'noise\n')
    appendFileSync(join(layout.runs(site), 'notes.txt'), 'no journal')
    const { runs, faults } = await store.runs()
    expect(runs.map(({ run }) => run)).toEqual(['pump'])
    expect(faults.map(({ id, file }) => [id, file])).toEqual([
      ['nothing-begun', 'runs/empty.jsonl'],
      ['chain-broken', 'runs/noise.jsonl']
    ])
    expect(await store.runIds()).toEqual(['empty', 'noise', 'pump'])
  })
})

describe('a site folder whose disk refuses', () => {
  const roster = sampleRoster(newRoot(), 1)
  const photo = Buffer.from('a photo')
  const path = `attachments/${sha256Hex(photo)}`
  const done = { kind: 'kept' } as const

  /** What is handed in, what it comes to, and whether what lies there is none or all of it, or whole lines from the first. */
  const tried: readonly (readonly [
    what: string,
    hand: () => Promise<Appended | Kept | Superseded>,
    isSound: () => Promise<boolean>,
    isDone: (result: { readonly kind: string }) => boolean
  ])[] = [
    [
      'lines',
      () => store.append(pump, 1, lines),
      async () => {
        // The rest of a line that could not be taken back is torn, and counts for nobody.
        const whole = Buffer.from((await store.journal('pump')) ?? [])
          .toString()
          .split('\n')
          .slice(0, -1)
        return whole.every((line, index) => line === lines[index])
      },
      ({ kind }) => kind === 'appended'
    ],
    [
      'a document',
      () => store.keep(path, photo),
      async () => [null, 'a photo'].includes((await store.document(path))?.toString() ?? null),
      ({ kind }) => kind === done.kind || kind === 'same'
    ],
    [
      'a roster',
      () => store.supersede('people.yaml', roster),
      async () => [null, roster.toString()].includes((await store.signed('people.yaml'))?.toString() ?? null),
      ({ kind }) => kind === done.kind || kind === 'same'
    ]
  ]

  it.each(tried)(
    'takes all of %s or says that it did not, whichever operation fails',
    async (_, hand, isSound, isDone) => {
      let failed = 0
      for (const code of ['ENOSPC', 'EIO', 'EROFS'] as const) {
        for (let n = 0; ; n += 1) {
          let reached = false
          const disk = faultyDisk(realDisk, (_asked, number) => {
            if (number !== n) return null
            reached = true
            return { code, bytes: 7 }
          })
          const result = await onDisk(disk, hand).catch((error: unknown) => {
            if (!isStoreFailure(error)) throw error
            return { kind: 'failed' }
          })
          if (!reached) break
          failed += 1
          expect(await isSound()).toBe(true)
          expect(isDone(result) || ['failed', 'refused'].includes(result.kind), result.kind).toBe(true)
          expect(isDone(await hand())).toBe(true)
          expect(await isSound()).toBe(true)
          rmSync(site.folder, { recursive: true })
          makeFolders(site.folder)
        }
      }
      expect(failed).toBeGreaterThan(20)
    }
  )
})
