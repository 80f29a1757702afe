import { join } from 'node:path'
import { startRun } from '@lockwright/records'
import { afterAll, describe, expect, it } from 'vitest'
import { type Asked, faultyDisk, unsyncedDisk } from '../../packages/records/fixtures/faulty-disk.js'
import { inFolder, scriptedClock } from '../../packages/records/fixtures/plant.js'
import { afterPowerCut, type Luck, layDown, simulateDisk } from '../../packages/records/fixtures/simulated-disk.js'
import type { Handle } from '../../packages/records/src/disk/disk.js'
import { onDisk } from '../../packages/records/src/disk/disk-in-use.js'
import { counted } from './counted.js'
import { begin, issuedSite, libraryMachine, opener, play, type Script, scriptOf, takeUp } from './scripted-run.js'

const count = counted(7)
const machine = libraryMachine('booster-pump-precharge.md')
const script: Script = onDisk(unsyncedDisk, () =>
  inFolder((folder) => scriptOf(issuedSite(folder, machine), machine, 7))
)

/** Nothing that was not synced is left; every name is. */
const unluckiest: Luck = { reached: () => 0, torn: () => 0, holed: () => false, named: () => true }

/**
 * A runner on a disk that refuses what `decide` says, until it closes or is gone. Then another takes the run up while the
 * power is on, so it sees what the first one wrote, synced or not. Then the power is cut. Whatever the second runner was
 * shown, and what was acknowledged to it, has to be there at the third start.
 */
function threeStarts(
  decide: (asked: Asked, entry: number, subject: string | Handle) => 'EIO' | null,
  more: number
): void {
  inFolder((folder) => {
    onDisk(unsyncedDisk, () => issuedSite(folder, machine))
    const simulated = simulateDisk(folder)
    const clock = scriptedClock('2026-03-02T09:00:00.000Z')
    let entry = 0
    const failing = faultyDisk(
      simulated.disk,
      (asked, _, subject) => {
        const code = decide(asked, entry, subject)
        return code === null ? null : { code }
      },
      simulated.syncFailed
    )
    let acknowledged = 1
    onDisk(failing, () => {
      const run = begin({ folder }, machine, clock)
      if (!run.ok) throw new Error(JSON.stringify(run.faults))
      for (const beat of script.beats) {
        entry += 1
        if (!play(run.value, clock, beat).ok) break
        acknowledged += 1
      }
      // Whoever crashed here lets go of nothing; that the mark of a dead process holds nothing up is tested elsewhere.
      run.value.close()
    })
    expect(acknowledged).toBeLessThan(script.beats.length)
    const shown = onDisk(simulated.disk, () => {
      const run = takeUp({ folder }, machine, clock)
      if (!run.ok) throw new Error(JSON.stringify(run.faults))
      expect(run.value.entries.length).toBeGreaterThanOrEqual(acknowledged)
      const from = run.value.entries.length - 1
      for (const beat of script.beats.slice(from, from + more)) {
        const taken = play(run.value, clock, beat)
        expect(taken.ok, JSON.stringify(taken)).toBe(true)
      }
      const left = afterPowerCut(simulated, simulated.steps.length, unluckiest)
      const entries = run.value.entries
      run.value.close()
      return { left, entries }
    })
    inFolder((later) => {
      layDown(later, new Map([...shown.left].filter(([path]) => !path.includes('.lock-'))))
      onDisk(unsyncedDisk, () => {
        const run = takeUp({ folder: later }, machine, clock)
        if (!run.ok) {
          expect.fail(run.faults[0].what)
          return
        }
        expect(run.value.entries).toEqual(shown.entries)
        run.value.close()
      })
    })
  })
}

afterAll(() => count.tell('Crash upon crash'))

const sample = script.beats.flatMap((_, index) =>
  index % 5 === 1 && index < script.beats.length - 5 ? [index + 1] : []
)

describe('what a runner is shown that takes a run up', () => {
  it.each([0, 1, 3])(
    'is on the disk, where the one before was killed between write and sync, after %i more answers',
    (more) => {
      for (const at of sample) {
        count.one('kills before a sync')
        let gone = false
        threeStarts((asked, entry) => {
          gone ||= asked === 'sync' && entry === at
          // A process that is gone syncs nothing, takes nothing back and removes no mark; its files stay as they are.
          return gone && asked !== 'remove' ? 'EIO' : null
        }, more)
      }
    }
  )

  it.each([0, 1, 3])(
    'is on the disk, where a sync failed and the line could not be taken back, after %i more answers',
    (more) => {
      for (const at of sample) {
        for (const also of ['truncate', 'sync'] as const) {
          count.one('failed syncs')
          let failed = false
          threeStarts((asked, entry) => {
            if (entry !== at) return null
            if (asked === 'sync' && !failed) {
              failed = true
              return 'EIO'
            }
            return failed && asked === also ? 'EIO' : null
          }, more)
        }
      }
    }
  )
})

describe('a run in a folder that was not there before', () => {
  it('is there after a power cut, folders and all, once it was opened', () => {
    inFolder((ground) => {
      const simulated = simulateDisk(ground)
      const clock = scriptedClock('2026-03-02T09:00:00.000Z')
      const site = { folder: join(ground, 'plant', 'records') }
      onDisk(simulated.disk, () => {
        const run = startRun({ site, machine, mode: 'draft', by: opener, clock, id: 'job' })
        if (!run.ok) throw new Error(JSON.stringify(run.faults))
        count.one('power cuts of a new folder')
        const left = afterPowerCut(simulated, simulated.steps.length, { ...unluckiest, named: () => false })
        expect([...left.keys()]).toContain(join('plant', 'records', 'runs', 'job.jsonl'))
        expect(Buffer.from(left.get(join('plant', 'records', 'runs', 'job.jsonl')) ?? []).toString()).toContain(
          '"opened"'
        )
        expect([...left.keys()].some((path) => path.includes('drafts'))).toBe(true)
        run.value.close()
      })
    })
  })
})

it('counted what was injected above', () => {
  expect(count.total()).toBeGreaterThanOrEqual(100)
})
