import { readFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import { checkLog, completeLog, type Entry, type RecordsFault } from '@lockwright/records'
import { afterAll, describe, expect, it } from 'vitest'
import { unsyncedDisk } from '../../packages/records/fixtures/faulty-disk.js'
import { inFolder, scriptedClock } from '../../packages/records/fixtures/plant.js'
import {
  afterPowerCut,
  type Content,
  type Luck,
  layDown,
  type SimulatedDisk,
  simulateDisk
} from '../../packages/records/fixtures/simulated-disk.js'
import { onDisk } from '../../packages/records/src/disk/disk-in-use.js'
import { chance } from '../end-to-end/walk.js'
import { counted } from './counted.js'
import { begin, issuedSite, libraryMachine, play, type Script, scriptOf, takeUp } from './scripted-run.js'

const seed = 20261126
/** Some ten seconds on a computer that does nothing else. */
const timeout = 300_000
const count = counted(seed)

/** What the power leaves, by name: from nothing that was not synced to all of it (as after a kill), and parts of it. */
function lucks(disk: SimulatedDisk, done: number, random: () => number): readonly (readonly [string, Luck])[] {
  const last = disk.steps[done - 1]
  const none: Luck = { reached: () => 0, torn: () => 0, holed: () => false, named: () => false }
  const all: Luck = { ...none, reached: (_, waiting) => waiting, named: () => true }
  const dice = (): Luck => ({
    reached: (_, waiting) => Math.floor(random() * (waiting + 1)),
    torn: (_, bytes) => Math.floor(random() * (bytes + 1)),
    holed: () => random() < 0.3,
    named: () => random() < 0.5
  })
  const cuts =
    last?.kind === 'written'
      ? [...new Set([0, 1, Math.floor(last.bytes.length / 2), last.bytes.length - 1])].map((part): [string, Luck] => [
          'torn writes',
          { ...all, reached: (file, waiting) => (file === last.file ? waiting - 1 : waiting), torn: () => part }
        ])
      : []
  const holes: [string, Luck][] =
    last?.kind === 'written'
      ? [['writes with holes', { ...none, named: () => true, torn: (_, bytes) => bytes, holed: () => true }]]
      : []
  return [
    ['kills', all],
    ['losses of all that was not synced', none],
    ['losses of content but not of names', { ...none, named: () => true }],
    ['losses of names but not of content', { ...all, named: () => false }],
    ...cuts,
    ...holes,
    ['losses by chance', dice()],
    ['losses by chance', dice()]
  ]
}

const marks = /\.lock-|\.new$/
/** What is the same for every reader: marks of dead writers and half-made files count for nothing. */
const tell = (content: Content): string =>
  [...content]
    .flatMap(([path, bytes]) => (marks.test(path) ? [path] : [path, Buffer.from(bytes).toString('latin1')]))
    .join('\n')

/** The process that wrote the marks is this one, and lives; after a crash it would not: above pid_max of proc(5). */
const ofDeadWriter = (content: Content): Content =>
  new Map(
    [...content].map(([path, bytes]) => {
      const text = Buffer.from(bytes).toString('utf8')
      return [path, path.includes('.lock-') ? Buffer.from(text.replace(/"pid":\d+/, '"pid":4194305')) : bytes]
    })
  )

interface Recorded {
  readonly disk: SimulatedDisk
  /** How many entries were acknowledged when so many steps of the disk were done. */
  readonly acknowledged: readonly number[]
  readonly lines: readonly string[]
}

/** The whole script on a disk that keeps a record. */
function record(folder: string, script: Script): Recorded {
  const site = { folder }
  const disk = simulateDisk(folder)
  const acknowledged: number[] = []
  const sofar = (entries: number): void => {
    while (acknowledged.length < disk.steps.length) acknowledged.push(entries)
  }
  return onDisk(disk.disk, () => {
    const clock = scriptedClock('2026-03-02T09:00:00.000Z')
    const run = begin(site, script.machine, clock)
    if (!run.ok) throw new Error(JSON.stringify(run.faults))
    // Until it returns nothing was acknowledged: its last step is the sync of the first entry.
    sofar(0)
    for (const [index, beat] of script.beats.entries()) {
      const taken = play(run.value, clock, beat)
      if (!taken.ok) throw new Error(JSON.stringify(taken))
      sofar(index + 1)
    }
    run.value.close()
    sofar(script.beats.length + 1)
    const lines = readFileSync(run.value.file, 'utf8').split('\n').slice(0, -1)
    return { disk, acknowledged: [...acknowledged, script.beats.length + 1], lines }
  })
}

/** How far a run has to be gone on with after a crash: every seventh to its end, which takes long. */
const further = (nth: number): number => (nth % 7 === 0 ? Number.POSITIVE_INFINITY : 2)

function goOn(folder: string, script: Script, recorded: Recorded, acknowledged: number, more: number): void {
  const before = readTail(folder)
  // At once: a time limit of the procedure that runs out while the run lies leads elsewhere, and rightly so.
  const stand = recorded.lines.findIndex((line) => !before.includes(`${line}\n`))
  const clock = scriptedClock((JSON.parse(recorded.lines.at(stand === 0 ? 0 : stand - 1) ?? '') as Entry).at)
  const run = takeUp({ folder }, script.machine, clock)
  if (!run.ok) {
    refusedRightly(run.faults[0], acknowledged)
    return
  }
  const { entries, setAside, snapshot } = run.value
  try {
    // Nothing acknowledged is lost, nothing half is read, and what is read is what was written.
    expect(entries.length).toBeGreaterThanOrEqual(acknowledged)
    expect(entries.length).toBeLessThanOrEqual(acknowledged + 1)
    const kept = readFileSync(run.value.file, 'utf8').split('\n').slice(0, -1)
    expect(kept).toEqual(recorded.lines.slice(0, entries.length))
    expect(snapshot).toEqual(script.snapshots[entries.length])
    // What was cut off is said, and kept as it was found.
    const torn = before.subarray(Buffer.byteLength(kept.map((line) => `${line}\n`).join('')))
    if (torn.length === 0) expect(setAside).toBeNull()
    else {
      expect(setAside?.bytes).toBe(torn.length)
      expect(basename(setAside?.file ?? '')).toMatch(/^job\.torn-\d+$/)
      expect(Buffer.compare(readFileSync(setAside?.file ?? ''), torn)).toBe(0)
    }
    for (const beat of script.beats.slice(entries.length - 1, entries.length - 1 + more)) {
      const taken = play(run.value, clock, beat)
      expect(taken.ok, `${beat.event.kind}: ${JSON.stringify(taken)}`).toBe(true)
    }
    expect(run.value.snapshot.state).toBe(script.snapshots[run.value.entries.length]?.state)
    expect(run.value.snapshot.status).toBe(script.snapshots[run.value.entries.length]?.status)
    if (more === Number.POSITIVE_INFINITY) {
      expect(run.value.snapshot.status).toBe('finished')
      // The log has the run once, with its last line, whatever a crash left of it.
      completeLog({ folder })
      const checked = checkLog({ site: { folder } })
      expect(checked.ok && checked.value.size).toBe(1)
      expect(checked.ok && checked.value.findings).toEqual([])
    }
  } finally {
    run.value.close()
  }
}

function isKept(path: string, bytes: Uint8Array, torn: Buffer): boolean {
  return /job\.(jsonl|torn-\d+)$/.test(path) && Buffer.from(bytes.subarray(bytes.length - torn.length)).equals(torn)
}

function readTail(folder: string): Buffer {
  try {
    return readFileSync(join(folder, 'runs', 'job.jsonl'))
  } catch {
    return Buffer.alloc(0)
  }
}

/** Before its first entry was acknowledged a run may not be there at all, or with nothing in it. */
function refusedRightly(fault: RecordsFault, acknowledged: number): void {
  expect(acknowledged, fault.what).toBe(0)
  expect(['no-such-run', 'nothing-begun']).toContain(fault.id)
  expect(fault.mend).not.toBe('')
}

afterAll(() => count.tell('Power cuts'))

describe.each([
  ['booster-pump-precharge.md', 5],
  ['baling-press-platen.md', 6]
])('a run of %s', (name, more) => {
  it('goes on after a crash at every operation of the disk', { timeout }, () => {
    inFolder((plant) => {
      const random = chance(seed + more)
      const machine = libraryMachine(name)
      const site = onDisk(unsyncedDisk, () => issuedSite(plant, machine))
      const script = onDisk(unsyncedDisk, () =>
        inFolder((scratch) => scriptOf(issuedSite(scratch, machine), machine, seed))
      )
      const recorded = record(site.folder, script)
      const { disk, acknowledged } = recorded
      expect(script.beats.length).toBeGreaterThan(40)
      let nth = 0
      for (let done = 0; done <= disk.steps.length; done += 1) {
        const seen = new Set<string>()
        for (const [kind, luck] of lucks(disk, done, random)) {
          const left = afterPowerCut(disk, done, luck)
          if (seen.has(tell(left))) continue
          seen.add(tell(left))
          count.one(kind)
          nth += 1
          inFolder((folder) => {
            layDown(folder, ofDeadWriter(left))
            const before = acknowledged[done - 1] ?? 0
            onDisk(unsyncedDisk, () => goOn(folder, script, recorded, before, further(nth)))
          })
        }
      }
    })
  })

  it('goes on after a crash in the middle of taking it up again', { timeout }, () => {
    inFolder((plant) => {
      const random = chance(seed + more)
      const machine = libraryMachine(name)
      const site = onDisk(unsyncedDisk, () => issuedSite(plant, machine))
      const script = onDisk(unsyncedDisk, () =>
        inFolder((scratch) => scriptOf(issuedSite(scratch, machine), machine, seed))
      )
      const recorded = record(site.folder, script)
      const { disk, acknowledged } = recorded
      const writes = disk.steps.flatMap((step, index) => (step.kind === 'written' && index > 20 ? [index + 1] : []))
      for (const done of writes.filter((_, index) => index % 12 === 5)) {
        const torn = lucks(disk, done, random).filter(
          ([kind]) => kind === 'torn writes' || kind === 'writes with holes'
        )
        const [, luck] = torn[Math.floor(random() * torn.length)] as readonly [string, Luck]
        inFolder((folder) => {
          layDown(folder, ofDeadWriter(afterPowerCut(disk, done, luck)))
          const whole = Buffer.byteLength(
            recorded.lines
              .slice(0, acknowledged[done - 1])
              .map((line) => `${line}\n`)
              .join('')
          )
          const torn = readTail(folder).subarray(whole)
          const again = simulateDisk(folder)
          onDisk(again.disk, () => {
            const run = takeUp({ folder }, machine, scriptedClock('2026-03-02T18:00:00.000Z'))
            if (!run.ok) throw new Error(run.faults[0].what)
            run.value.close()
          })
          for (let step = 0; step <= again.steps.length; step += 1) {
            const seen = new Set<string>()
            for (const [, second] of lucks(again, step, random)) {
              const left = afterPowerCut(again, step, second)
              if (seen.has(tell(left))) continue
              seen.add(tell(left))
              count.one('crashes in a recovery')
              // What was torn is in the journal still, or was copied before it was cut off there; or both.
              expect([...left].some(([path, bytes]) => isKept(path, bytes, torn))).toBe(true)
              inFolder((later) => {
                layDown(later, ofDeadWriter(left))
                onDisk(unsyncedDisk, () => goOn(later, script, recorded, acknowledged[done - 1] ?? 0, 2))
              })
            }
          }
        })
      }
    })
  })
})

it('counted what was injected above', () => {
  expect(count.total()).toBeGreaterThanOrEqual(1_000)
  for (const kind of ['kills', 'torn writes', 'writes with holes', 'losses by chance', 'crashes in a recovery']) {
    expect(count.of(kind), kind).toBeGreaterThan(50)
  }
})
