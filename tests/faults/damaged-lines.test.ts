import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { listRuns, type Site } from '@lockwright/records'
import { afterAll, describe, expect, it } from 'vitest'
import { unsyncedDisk } from '../../packages/records/fixtures/faulty-disk.js'
import { inFolder, scriptedClock } from '../../packages/records/fixtures/plant.js'
import { onDisk } from '../../packages/records/src/disk/disk-in-use.js'
import { counted } from './counted.js'
import { begin, issuedSite, libraryMachine, play, type Script, scriptOf, takeUp } from './scripted-run.js'

const seed = 53
const count = counted(seed)
const machine = libraryMachine('booster-pump-precharge.md')
const script: Script = onDisk(unsyncedDisk, () =>
  inFolder((folder) => scriptOf(issuedSite(folder, machine), machine, seed))
)
const nine = '2026-03-02T09:00:00.000Z'

/** A run that was left in the middle, and its lines, each with its end. */
function left(body: (site: Site, file: string, lines: readonly string[]) => void): void {
  inFolder((folder) => {
    onDisk(unsyncedDisk, () => {
      issuedSite(folder, machine)
      const clock = scriptedClock(nine)
      const run = begin({ folder }, machine, clock)
      if (!run.ok) throw new Error(JSON.stringify(run.faults))
      for (const beat of script.beats.slice(0, 30)) play(run.value, clock, beat)
      run.value.close()
      const lines = readFileSync(run.value.file, 'utf8').split(/(?<=\n)/)
      body({ folder }, run.value.file, lines)
    })
  })
}

/** Whoever takes the run up is told which line; no byte of the file is changed, and nothing is put beside it. */
function refusedAt(site: Site, file: string, content: string | Buffer, line: number, tell: string): void {
  count.one(tell)
  writeFileSync(file, content)
  const run = takeUp(site, machine, scriptedClock('2026-03-02T12:00:00.000Z'))
  if (run.ok) {
    run.value.close()
    throw new Error(`${tell} ${line}: taken up`)
  }
  expect(run.faults[0], `${tell} ${line}`).toMatchObject({ id: 'chain-broken', line })
  expect(run.faults[0].mend).toContain('another copy')
  expect(readFileSync(file).equals(Buffer.from(content)), `${tell} ${line}`).toBe(true)
  expect(readdirSync(join(site.folder, 'runs'))).toEqual(['job.jsonl'])
  expect(listRuns(site).runs.length + listRuns(site).faults.length).toBe(1)
}

afterAll(() => count.tell('Damaged lines'))

describe('a journal with', () => {
  it('a line that stands there twice is not gone on with', () => {
    left((site, file, lines) => {
      for (const [index, line] of lines.entries()) {
        // The second of the two is out of its place; what it is held against is the first.
        const twice = lines.toSpliced(index, 0, line).join('')
        refusedAt(site, file, twice, index + 1, 'lines twice')
      }
    })
  })

  it('a line in the middle that is cut short, or cut short and then written whole, is not gone on with', () => {
    left((site, file, lines) => {
      for (const [index, line] of lines.slice(0, -1).entries()) {
        for (const part of [1, Math.floor(line.length / 2), line.length - 2]) {
          const torn = `${line.slice(0, part)}\n`
          refusedAt(site, file, lines.with(index, torn).join(''), index + 1, 'lines cut short')
          refusedAt(site, file, lines.toSpliced(index, 0, torn).join(''), index + 1, 'lines cut short and repeated')
        }
      }
    })
  })

  it('an end of zeros, as a file system leaves it that grew a file first, has them set aside', () => {
    left((site, file, lines) => {
      for (const amount of [1, 511, 4096]) {
        for (const end of ['', '\n']) {
          count.one('ends of zeros')
          writeFileSync(file, lines.join('') + '\0'.repeat(amount) + end)
          const run = takeUp(site, machine, scriptedClock('2026-03-02T12:00:00.000Z'))
          if (!run.ok) throw new Error(JSON.stringify(run.faults))
          expect(run.value.setAside?.bytes).toBe(amount + end.length)
          expect(run.value.entries.length).toBe(lines.length)
          run.value.close()
          expect(readFileSync(file, 'utf8')).toBe(lines.join(''))
        }
      }
    })
  })
})

it('counted what was injected above', () => {
  expect(count.total()).toBeGreaterThanOrEqual(200)
})
