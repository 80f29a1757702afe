import { spawn } from 'node:child_process'
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { bundleProgram } from '../../packages/records/fixtures/bundle-program.js'
import { unsyncedDisk } from '../../packages/records/fixtures/faulty-disk.js'
import { inFolder } from '../../packages/records/fixtures/plant.js'
import { onDisk } from '../../packages/records/src/disk/disk-in-use.js'
import { chance } from '../end-to-end/walk.js'
import { clockAfter } from './clock-after.js'
import { counted } from './counted.js'
import { issuedSite, libraryMachine, play, type Script, scriptOf, takeUp } from './scripted-run.js'

const seed = 29
/** A few seconds on a computer that does nothing else. */
const timeout = 300_000
const count = counted(seed)
const machine = libraryMachine('booster-pump-precharge.md')
const script: Script = onDisk(unsyncedDisk, () =>
  inFolder((folder) => scriptOf(issuedSite(folder, machine), machine, seed))
)
const from = '2026-03-02T09:00:00.000Z'
let ground = ''
let program = ''

beforeAll(() => {
  ground = mkdtempSync(join(tmpdir(), 'lockwright-kill-'))
  program = join(ground, 'killed-runner.mjs')
  bundleProgram(join(import.meta.dirname, 'killed-runner.ts'), program)
  onDisk(unsyncedDisk, () => issuedSite(join(ground, 'issued'), machine))
})

afterAll(() => {
  rmSync(ground, { recursive: true, force: true })
  count.tell('Processes that were really killed')
})

/** A fresh copy of the issued site, and beside it what its runners are to do. */
function plant(name: string, beats: Script['beats']): string {
  const folder = join(ground, name, 'site')
  cpSync(join(ground, 'issued'), folder, { recursive: true })
  writeFileSync(join(ground, name, 'script.json'), JSON.stringify({ machine, beats, from }))
  return folder
}

interface Ended {
  readonly acknowledged: number
  readonly signal: NodeJS.Signals | null
  readonly refused: string | null
  /** How many in all, then the numbers of those that write. */
  readonly operations: readonly number[]
}

/** Lets a runner go until it ends; `killAt`: kills it from outside once it acknowledged that many entries. */
async function runner(folder: string, dies: string, killAt = Number.POSITIVE_INFINITY): Promise<Ended> {
  const child = spawn(process.execPath, [program, folder, dies], { stdio: ['ignore', 'pipe', 'inherit'] })
  const over = new Promise<NodeJS.Signals | null>((done) => child.on('exit', (_, signal) => done(signal)))
  let [acknowledged, refused, operations] = [0, null as string | null, [] as readonly number[]]
  for await (const line of createInterface({ input: child.stdout })) {
    if (line.startsWith('refused ')) refused = line.slice(8)
    else if (line.startsWith('operations ')) operations = line.slice(11).split(' ').map(Number)
    else acknowledged = Number(line)
    if (acknowledged >= killAt) child.kill('SIGKILL')
  }
  return { acknowledged, signal: await over, refused, operations }
}

/** The next start: nothing acknowledged is lost, it stands where the script stood, and goes on to the end of it. */
function nextStart(folder: string, beats: Script['beats'], acknowledged: number, tell: string): void {
  onDisk(unsyncedDisk, () => {
    const clock = clockAfter(folder, from)
    const run = takeUp({ folder }, machine, clock)
    if (!run.ok) {
      expect(acknowledged, `${tell}: ${run.faults[0].what}`).toBe(0)
      expect(['no-such-run', 'nothing-begun'], tell).toContain(run.faults[0].id)
      return
    }
    const { entries, setAside, snapshot, file } = run.value
    expect(entries.length, tell).toBeGreaterThanOrEqual(acknowledged)
    expect(entries.length, tell).toBeLessThanOrEqual(acknowledged + 1)
    expect({ ...snapshot, at: '', deadlines: {}, progress: {} }, tell).toEqual({
      ...script.snapshots[entries.length],
      at: '',
      deadlines: {},
      progress: {}
    })
    if (setAside !== null) expect(readFileSync(setAside.file).length).toBe(setAside.bytes)
    for (const beat of beats.slice(entries.length - 1)) {
      const taken = play(run.value, clock, beat)
      expect(taken.ok, `${tell}: ${JSON.stringify(taken)}`).toBe(true)
    }
    run.value.close()
    expect(readFileSync(file, 'utf8').split('\n').length, tell).toBe(beats.length + 2)
    expect(
      readdirSync(join(folder, 'runs')).filter((name) => name.includes('.lock-') && !name.endsWith('.new'))
    ).toEqual([])
  })
}

/** Several at once: there are two cores. */
async function each<Item>(items: readonly Item[], body: (item: Item, index: number) => Promise<void>): Promise<void> {
  const waiting = [...items.entries()]
  const work = async (): Promise<void> => {
    for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) await body(next[1], next[0])
  }
  await Promise.all([work(), work(), work()])
}

describe('a runner that kills itself', () => {
  it('at any operation of the disk loses nothing that it acknowledged', { timeout }, async () => {
    const beats = script.beats.slice(0, 9)
    const {
      operations: [amount = 0, ...writes]
    } = await runner(plant('whole', beats), '')
    expect(amount).toBeGreaterThan(40)
    const cuts = [...Array.from({ length: amount }, (_, at) => `${at} before`), ...writes.map((at) => `${at} within`)]
    await each(cuts, async (cut, index) => {
      const folder = plant(`cut-${index}`, beats)
      const { acknowledged, signal } = await runner(folder, cut)
      expect(signal, cut).toBe('SIGKILL')
      count.one(cut.endsWith('before') ? 'kills before an operation' : 'kills in the middle of a write')
      nextStart(folder, beats, acknowledged, cut)
    })
  })
})

describe('a runner that is killed from outside', () => {
  it('at times of chance, and again and again, comes to the end of its script', { timeout }, async () => {
    const random = chance(seed)
    await each(
      Array.from({ length: 4 }, (_, index) => index),
      async (index) => {
        const folder = plant(`chance-${index}`, script.beats)
        let last = 0
        for (let start = 0; start < 5; start += 1) {
          const ended = await runner(folder, '', last + 1 + Math.floor(random() * 12))
          if (ended.signal === null) break
          count.one('kills from outside')
          expect(ended.acknowledged).toBeGreaterThanOrEqual(last)
          last = ended.acknowledged
        }
        nextStart(folder, script.beats, last, `chance ${index}`)
      }
    )
  })
})

describe('runners on one journal', () => {
  it('that start at once: never two of them write, and what they acknowledged is there once', { timeout }, async () => {
    for (let round = 0; round < 3; round += 1) {
      const folder = plant(`race-${round}`, script.beats)
      const first = await runner(folder, '', 1)
      const racing = await Promise.all(Array.from({ length: 4 }, () => runner(folder, '')))
      count.one('races')
      for (const { refused } of racing) expect([null, 'in-use']).toContain(refused)
      const most = Math.max(first.acknowledged, ...racing.map(({ acknowledged }) => acknowledged))
      const lines = readFileSync(join(folder, 'runs', 'job.jsonl'), 'utf8')
        .split('\n')
        .slice(0, -1)
      expect(lines.map((line) => (JSON.parse(line) as { seq: number }).seq)).toEqual(lines.map((_, index) => index + 1))
      expect(lines.length).toBeGreaterThanOrEqual(most)
      nextStart(folder, script.beats, most, `race ${round}`)
    }
  })
})

it('counted what was injected above', () => {
  expect(count.total()).toBeGreaterThanOrEqual(75)
})
