import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import {
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { bundleProgram } from '../../fixtures/bundle-program.js'
import { inFolder } from '../../fixtures/plant.js'
import { type Disk, realDisk } from '../disk/disk.js'
import { onDisk } from '../disk/disk-in-use.js'
import type { RunId } from '../entry.js'
import type { RecordsResult } from '../result.js'
import { makeFolders, type Site } from '../site.js'
import { appendLeaves, type LeavesAppended } from './append-leaves.js'
import { checkLog } from './check-log.js'
import { frontierOf } from './frontier.js'
import { formatLeaf, type Leaf } from './leaf.js'
import { endBytes, logFolder } from './log-folder.js'
import { bucketOf } from './log-reader.js'
import { leavesAfter, readLog } from './read-log.js'
import { leafHash } from './tree-hash.js'

// Names whose numbers stand in two files only, so that a log can be copied quickly.
const runNames: string[] = []
for (let n = 0; runNames.length < 300; n += 1) if (bucketOf(`run-${n}`) < '02') runNames.push(`run-${n}`)

const leafNamed = (n: number): Leaf => ({
  format: 'lockwright-leaf/1',
  run: (runNames[n] ?? `run-${1_000_000 + n}`) as RunId,
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
const leaves = (from: number, to: number): readonly Leaf[] =>
  Array.from({ length: to - from }, (_, at) => leafNamed(from + at))

function value<Value>(result: RecordsResult<Value>): Value {
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

/** What is in the log, and whether its tiles, its numbers and its leaves say the same. */
function contents(site: Site): readonly string[] {
  const log = value(readLog(site))
  const read = value(leavesAfter(site, 0)).map(({ leaf }) => leaf)
  const frontier = frontierOf(0, () => Buffer.alloc(0))
  for (const leaf of read) frontier.push(leafHash(formatLeaf(leaf)))
  expect(Buffer.from(log.root).toString('hex')).toBe(Buffer.from(frontier.root()).toString('hex'))
  expect(log.size).toBe(read.length)
  return read.map(({ run }) => run)
}

class Killed extends Error {}

/**
 * A disk on which the process dies at the `last` touch that changes something: half through it (where it is no write:
 * before it), or after it.
 */
function dyingDisk(last: number, how: 'half' | 'after'): { readonly disk: Disk; touches: () => number } {
  let touches = 0
  const touch = (all: () => void, half?: () => void): void => {
    touches += 1
    if (touches < last || (touches === last && how === 'after')) all()
    if (touches === last && how === 'half') half?.()
    if (touches >= last) throw new Killed()
  }
  const disk: Disk = {
    ...realDisk,
    write: (handle, bytes, position) =>
      touch(
        () => realDisk.write(handle, bytes, position),
        () => realDisk.write(handle, bytes.subarray(0, Math.ceil(bytes.length / 2)), position)
      ),
    sync: (handle) => touch(() => realDisk.sync(handle)),
    truncate: (handle, size) => touch(() => realDisk.truncate(handle, size)),
    makeFolder: (folder, permissions) => touch(() => realDisk.makeFolder(folder, permissions)),
    rename: (from, to) => touch(() => realDisk.rename(from, to)),
    remove: (file) => touch(() => realDisk.remove(file)),
    syncFolder: (folder) => touch(() => realDisk.syncFolder(folder))
  }
  return { disk, touches: () => touches }
}

/** The mark of a writer that was killed: its process is this one, which lives, so the test takes it away itself. */
function takeMarksAway(site: Site): void {
  for (const name of readdirSync(logFolder.folder(site))) {
    if (name.includes('.lock-')) rmSync(join(logFolder.folder(site), name))
  }
}

const names = (from: number, to: number): readonly string[] => leaves(from, to).map(({ run }) => run)

/** Adds leaves to a log of `before`, dies at each touch of the disk in each way, and looks at what the next one finds. */
function everyDeath(before: number, adding: number): number {
  const prepared = makeFolders(mkdtempSync(join(tmpdir(), 'lockwright-log-')))
  value(appendLeaves(prepared, leaves(0, before)))
  try {
    return deathsOn(prepared, before, adding)
  } finally {
    rmSync(prepared.folder, { recursive: true, force: true })
  }
}

function deathsOn(prepared: Site, before: number, adding: number): number {
  let deaths = 0
  for (let last = 1; ; last += 1) {
    for (const how of ['half', 'after'] as const) {
      const done = inFolder((folder) => {
        const site = { folder }
        cpSync(prepared.folder, folder, { recursive: true })
        const { disk, touches } = dyingDisk(last, how)
        let acknowledged = false
        try {
          acknowledged = onDisk(disk, () => appendLeaves(site, leaves(before, before + adding)).ok)
        } catch (error) {
          if (!(error instanceof Killed)) throw error
        }
        takeMarksAway(site)
        // A reader that comes first sees the log as it was or with some of the new leaves; all that it sees fits.
        const seen = contents(site)
        expect(seen.length).toBeGreaterThanOrEqual(before)
        expect(seen).toEqual(names(0, seen.length))
        if (acknowledged) expect(seen).toEqual(names(0, before + adding))
        // The next chance: the same leaves are handed in again, and one more.
        const next = value(appendLeaves(site, leaves(before, before + adding + 1)))
        expect(contents(site)).toEqual(names(0, before + adding + 1))
        expect(next.size).toBe(before + adding + 1)
        expect(value(appendLeaves(site, leaves(Math.max(0, before - 5), before + adding + 1))).added).toEqual([])
        return touches() < last
      })
      if (done) return deaths
      deaths += 1
    }
  }
}

describe('adding to the log', () => {
  it.each([
    { what: 'the first leaf', before: 0, adding: 1 },
    { what: 'three leaves at once', before: 5, adding: 3 },
    { what: 'the leaf that fills a tile', before: 255, adding: 1 }
  ])('survives the death of the process at every touch of the disk: $what', ({ before, adding }) => {
    expect(everyDeath(before, adding)).toBeGreaterThan(40)
  })

  it('says what it put right', () => {
    inFolder((folder) => {
      const site = makeFolders(folder)
      value(appendLeaves(site, leaves(0, 3)))
      const [file, ends] = [logFolder.leaves(site), logFolder.ends(site)]
      const again = (): LeavesAppended => value(appendLeaves(site, []))
      truncateSync(ends, 2 * endBytes + 3)
      expect(again().repaired).toEqual([
        'The count of the leaves had been cut off by a crash and was put right.',
        'One leaf was written but not yet counted when the computer or the process stopped; counted now.'
      ])
      writeFileSync(file, `${readFileSync(file, 'utf8')}{"closedAt":"2026`)
      expect(again().repaired[0]).toContain('17 bytes at the end of the log were no whole leaf')
      expect(readFileSync(logFolder.torn(site, 1), 'utf8')).toBe('{"closedAt":"2026')
      // A whole line that a second time has the leaf of a run is no leaf of a crash.
      writeFileSync(file, `${readFileSync(file, 'utf8')}${formatLeaf(leafNamed(1))}\n`)
      expect(again().repaired[0]).toContain('no whole leaf')
      expect(contents(site)).toEqual(names(0, 3))
    })
  })

  it('loses no leaf where a byte of the count was changed, whichever, and reads nothing wrong out of it', () => {
    inFolder((folder) => {
      const site = makeFolders(folder)
      value(appendLeaves(site, leaves(0, 3)))
      const [ends, text] = [readFileSync(logFolder.ends(site)), readFileSync(logFolder.leaves(site), 'utf8')]
      for (let byte = 0; byte < ends.length; byte += 1) {
        for (const bit of [1, 0x80]) {
          const changed = Buffer.from(ends)
          changed[byte] = (changed[byte] ?? 0) ^ bit
          writeFileSync(logFolder.ends(site), changed)
          expect(value(checkLog({ site })).size).toBe(3)
          value(appendLeaves(site, []))
          expect(readFileSync(logFolder.leaves(site), 'utf8')).toBe(text)
          // In the middle it only finds leaves quickly; the last one counts them, and is put right.
          if (byte >= 2 * endBytes) expect(readFileSync(logFolder.ends(site))).toEqual(ends)
          writeFileSync(logFolder.ends(site), ends)
        }
      }
    })
  })

  it('refuses to go on where leaves that counted are gone', () => {
    inFolder((folder) => {
      const site = makeFolders(folder)
      value(appendLeaves(site, leaves(0, 3)))
      const text = readFileSync(logFolder.leaves(site), 'utf8')
      truncateSync(logFolder.leaves(site), text.length - 10)
      expect(appendLeaves(site, leaves(3, 4))).toMatchObject({ ok: false, faults: [{ id: 'log-cut' }] })
      expect(readFileSync(logFolder.leaves(site), 'utf8')).toBe(text.slice(0, -10))
    })
  })

  it('tells a disk that refuses, changes nothing that counts, and goes on once it works again', () => {
    inFolder((folder) => {
      const site = makeFolders(folder)
      value(appendLeaves(site, leaves(0, 2)))
      const full = Object.assign(new Error('no space left'), { code: 'ENOSPC', syscall: 'write' })
      for (let from = 0; from < 12; from += 1) {
        let writes = 0
        const disk: Disk = {
          ...realDisk,
          write: (handle, bytes, position) => {
            writes += 1
            if (writes > from) throw full
            realDisk.write(handle, bytes, position)
          }
        }
        const told = onDisk(disk, () => appendLeaves(site, [leafNamed(100 + from)]))
        if (told.ok) break
        expect(told.faults[0].id).toBe('disk-refused')
        expect(contents(site).slice(0, 2)).toEqual(names(0, 2))
      }
      value(appendLeaves(site, [leafNamed(200)]))
      expect(contents(site).at(-1)).toBe(leafNamed(200).run)
      expect(new Set(contents(site)).size).toBe(contents(site).length)
    })
  })

  it('costs the same at the end of a long log: two tiles, one file of numbers, one count', () => {
    inFolder((folder) => {
      const site = makeFolders(folder)
      value(appendLeaves(site, leaves(0, 3000)))
      const touched: string[] = []
      const disk: Disk = {
        ...realDisk,
        open: (file, how, permissions) => {
          touched.push(file)
          return realDisk.open(file, how, permissions)
        }
      }
      value(onDisk(disk, () => appendLeaves(site, leaves(3000, 3001))))
      // The mark of the writer, the leaves, a tile of each level, one file of numbers, the count.
      expect(touched.length).toBe(6)
      expect(contents(site).length).toBe(3001)
    })
  })
})

describe('two processes that add at once', () => {
  it('lose nothing and double nothing, also where they hand in the same runs', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'lockwright-log-'))
    try {
      const script = join(folder, 'adder.mjs')
      bundleProgram(join(import.meta.dirname, '..', '..', 'fixtures', 'leaf-adder.ts'), script)
      const site = makeFolders(join(folder, 'site'))
      const add = (from: number, to: number): ChildProcess =>
        spawn(process.execPath, [script, site.folder, String(from), String(to)], { stdio: 'inherit' })
      const children = [add(0, 30), add(15, 45), add(30, 60)]
      const ends = await Promise.all(children.map((child) => once(child, 'exit')))
      expect(ends.map(([code]) => code)).toEqual([0, 0, 0])
      const all = Array.from({ length: 60 }, (_, at) => `run-${at}`)
      expect(contents(site).toSorted()).toEqual(all.toSorted())
      expect(readdirSync(logFolder.folder(site)).filter((name) => name.includes('.lock-'))).toEqual([])
      expect(existsSync(logFolder.torn(site, 1))).toBe(false)
    } finally {
      rmSync(folder, { recursive: true, force: true })
    }
  })
})
