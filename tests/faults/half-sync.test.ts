import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { folderStore, type Site, syncSite } from '@lockwright/records'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type Fault, faultyDisk, unsyncedDisk } from '../../packages/records/fixtures/faulty-disk.js'
import { scriptedClock } from '../../packages/records/fixtures/plant.js'
import {
  afterPowerCut,
  type Content,
  type Luck,
  layDown,
  readFolder,
  simulateDisk
} from '../../packages/records/fixtures/simulated-disk.js'
import { readChain } from '../../packages/records/src/chain.js'
import { sha256Hex } from '../../packages/records/src/digest.js'
import { onDisk } from '../../packages/records/src/disk/disk-in-use.js'
import { makeFolders } from '../../packages/records/src/site.js'
import { chance } from '../end-to-end/walk.js'
import { counted } from './counted.js'
import { begin, issuedSite, libraryMachine, play, type Script, scriptOf } from './scripted-run.js'

// The shared store is a folder here, on a stick or a share: its disk fails, is full, or loses power, at every operation.

const seed = 67
/** A few seconds on a computer that does nothing else. */
const timeout = 300_000
const count = counted(seed)
const machine = libraryMachine('booster-pump-precharge.md')
let ground = ''
let tablet: Site = { folder: '' }

beforeAll(() => {
  ground = mkdtempSync(join(tmpdir(), 'lockwright-half-sync-'))
  onDisk(unsyncedDisk, () => {
    tablet = issuedSite(join(ground, 'tablet'), machine)
    const script: Script = scriptOf(issuedSite(join(ground, 'scratch'), machine), machine, seed)
    for (const [id, beats] of [
      ['closed', script.beats],
      ['open', script.beats.slice(0, 20)]
    ] as const) {
      const clock = scriptedClock('2026-03-02T09:00:00.000Z')
      const run = begin(tablet, machine, clock, id)
      if (!run.ok) throw new Error(JSON.stringify(run.faults))
      for (const beat of beats) play(run.value, clock, beat)
      run.value.close()
    }
  })
})

afterAll(() => {
  rmSync(ground, { recursive: true, force: true })
  count.tell('A store that fails half-way through a sync')
})

/** What counts in a store: no marks, no half-made files, and no indexes that are made of the leaves. */
const records = (content: Content): readonly (readonly [string, string])[] =>
  [...content]
    .filter(([path]) => !/\.lock-|\.new$|\.torn-|^log\/(numbers|tile|leaves\.ends)/.test(path))
    .map(([path, bytes]) => [path, sha256Hex(bytes)])

/** Whatever stands in the store is whole: each journal is the beginning of the one on the tablet, each document is it. */
function nothingHalf(site: Site, tell: string): void {
  for (const [path, bytes] of readFolder(site.folder)) {
    if (/\.lock-|\.new$|\.torn-|^log\//.test(path)) continue
    const original = readFileSync(join(tablet.folder, path))
    if (!path.startsWith('runs/')) {
      expect(original.equals(bytes), `${tell}: ${path}`).toBe(true)
      continue
    }
    const { faults, whole, lines } = readChain(bytes, path)
    // A last line may be torn, as in any journal; the next writer sets it aside.
    const kept = lines.at(-1)?.entry === null ? whole - Buffer.byteLength(lines.at(-1)?.text ?? '') - 1 : whole
    expect(
      faults.filter(({ line }) => line !== lines.length),
      `${tell}: ${path}`
    ).toEqual([])
    expect(original.subarray(0, kept).equals(Buffer.from(bytes).subarray(0, kept)), `${tell}: ${path}`).toBe(true)
  }
}

const shared = (folder: string): Site => makeFolders(folder)

/** A sync of its own, after whatever happened: it comes to its end, and the store has everything that the tablet has. */
async function syncedAfterAll(site: Site, tell: string): Promise<void> {
  const report = await syncSite(tablet, folderStore(site))
  expect(report.stopped, tell).toBeNull()
  expect(report.findings, tell).toEqual([])
  expect(records(readFolder(site.folder)), tell).toEqual(records(readFolder(tablet.folder)))
}

describe('a sync into a folder', () => {
  it.each(['ENOSPC', 'EIO', 'EROFS'] as const)(
    'whose disk says %s at any operation, once or from then on',
    { timeout },
    async (code) => {
      for (const lasting of [false, true]) {
        for (let at = 0; ; at += lasting ? 11 : 9) {
          const folder = mkdtempSync(join(ground, 'store-'))
          let struck = 0
          const decide = (_: unknown, number: number): Fault | null => {
            if (lasting ? number < at : number !== at) return null
            struck += 1
            return { code, bytes: at % 5 }
          }
          const tell = `${code} at ${at}${lasting ? ' and on' : ''}`
          await onDisk(unsyncedDisk, async () => {
            const site = shared(folder)
            const report = await onDisk(faultyDisk(unsyncedDisk, decide), () => syncSite(tablet, folderStore(site)))
            if (struck > 0) count.one(code)
            if (report.stopped === null && report.findings.length === 0) {
              // What was refused was of no account: a mark that was not taken away.
              expect(records(readFolder(folder)), tell).toEqual(records(readFolder(tablet.folder)))
            }
            nothingHalf(site, tell)
            await syncedAfterAll(site, tell)
          })
          rmSync(folder, { recursive: true, force: true })
          if (struck === 0) break
        }
      }
    }
  )

  it('whose power is cut after any operation', { timeout }, async () => {
    const random = chance(seed)
    const folder = mkdtempSync(join(ground, 'cut-'))
    const site = onDisk(unsyncedDisk, () => shared(folder))
    const simulated = simulateDisk(folder)
    await onDisk(simulated.disk, () => syncSite(tablet, folderStore(site)))
    const lucks: readonly Luck[] = [
      { reached: () => 0, torn: () => 0, holed: () => false, named: () => true },
      { reached: () => 0, torn: (_, bytes) => Math.floor(bytes / 2), holed: () => false, named: () => true },
      {
        reached: (_, waiting) => Math.floor(random() * (waiting + 1)),
        torn: (_, bytes) => Math.floor(random() * (bytes + 1)),
        holed: () => random() < 0.3,
        named: () => random() < 0.5
      }
    ]
    for (let done = 0; done <= simulated.steps.length; done += 2) {
      const luck = lucks[done % lucks.length] as Luck
      const later = mkdtempSync(join(ground, 'later-'))
      const left = [...afterPowerCut(simulated, done, luck)].filter(([path]) => !path.includes('.lock-'))
      layDown(later, new Map(left))
      count.one('power cuts')
      await onDisk(unsyncedDisk, async () => {
        const again = shared(later)
        nothingHalf(again, `cut after ${done}`)
        await syncedAfterAll(again, `cut after ${done}`)
      })
      rmSync(later, { recursive: true, force: true })
    }
  })
})

it('counted what was injected above', () => {
  expect(count.total()).toBeGreaterThanOrEqual(200)
})
