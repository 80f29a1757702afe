import { rmSync } from 'node:fs'
import { join } from 'node:path'
import { type Clock, type Run, resumeRun, type Site, startRun } from '@lockwright/records'
import { describe, expect, it } from 'vitest'
import { fanMachine } from '../../packages/records/fixtures/fan-machine.js'
import {
  fanJob,
  inFolder,
  person,
  plantSite,
  scriptedClock,
  signerOf,
  walk
} from '../../packages/records/fixtures/plant.js'
import { issue } from '../../packages/records/src/issue.js'

const started = fanJob.findIndex(({ event }) => event.kind === 'wait-started')
const over = fanJob.find(({ event }) => event.kind === 'wait-over')?.event

interface Stage {
  readonly site: Site
  readonly hands: ReturnType<typeof scriptedClock>
  /** Takes the run up again by a clock whose zero is that of this start of the computer. */
  readonly again: (zero?: string) => Run
}

/** A run whose wait of 300 s has just begun, and that was killed then. */
function killedInAWait(body: (stage: Stage) => void): void {
  inFolder((folder) => {
    const site = plantSite(folder)
    const hands = scriptedClock()
    const clockOf = (zero: string): Clock => ({ now: hands.now, zero })
    issue({ site, machine: fanMachine, signer: signerOf('birk'), clock: hands })
    const run = startRun({
      site,
      machine: fanMachine,
      mode: 'issued',
      by: person('odd'),
      clock: clockOf('one'),
      id: 'fan'
    })
    if (!run.ok) throw new Error(JSON.stringify(run.faults))
    const { id } = run.value
    walk(run.value, hands, fanJob.slice(0, started + 1))
    run.value.close()
    const open: Run[] = []
    body({
      site,
      hands,
      again: (zero = 'one') => {
        for (const one of open) one.close()
        const taken = resumeRun({ site, run: id, machine: fanMachine, clock: clockOf(zero) })
        if (!taken.ok) throw new Error(JSON.stringify(taken.faults))
        open.push(taken.value)
        return taken.value
      }
    })
    for (const one of open) one.close()
  })
}

const end = (run: Run): string => {
  if (over === undefined) throw new Error('no wait')
  const taken = run.take({ ...over, by: person('odd') })
  return taken.ok ? '' : taken.refusals[0].why
}

describe('a wait that runs on while nobody steps the run', () => {
  it('is not ended by a clock that was set on in between', () => {
    killedInAWait(({ hands, again }) => {
      hands.pass(20)
      hands.setWall(3600)
      const run = again()
      expect(run.warnings).toEqual([])
      expect(end(run)).toContain('has 280 s to go')
      hands.pass(277)
      expect(end(run)).toContain('has 3 s to go')
      hands.pass(3)
      expect(end(run)).toBe('')
      expect(run.entries.at(-1)).toMatchObject({ session: 2 })
    })
  })

  it('counts the time in between, by the clock that nobody can set', () => {
    killedInAWait(({ hands, again }) => {
      hands.pass(300)
      expect(end(again())).toBe('')
    })
  })

  it('is not ended by taking the run up and dropping it again before anything is entered', () => {
    killedInAWait(({ hands, again }) => {
      again()
      hands.setWall(3600)
      again().take({ kind: 'note', text: 'Back again', by: person('odd') })
      hands.pass(10)
      hands.setWall(3600)
      again()
      expect(end(again())).toContain('has 290 s to go')
    })
  })

  it('is not ended by a clock that was set on while the run was stepped, and a break after that', () => {
    killedInAWait(({ hands, again }) => {
      const run = again()
      hands.setWall(3600)
      run.take({ kind: 'note', text: 'Still here', by: person('odd') })
      expect(end(again('two'))).toContain('has 300 s to go')
    })
  })

  it('goes on by the wall clock after a start of the computer, and the run says so while it lasts', () => {
    killedInAWait(({ hands, again }) => {
      hands.restart(299)
      const run = again('two')
      expect(run.warnings).toHaveLength(1)
      expect(run.warnings[0]).toContain('nothing but the wall clock')
      expect(end(run)).toContain('has 1 s to go')
      hands.pass(1)
      expect(end(run)).toBe('')
      expect(run.warnings).toEqual([])
    })
  })

  it('goes by the wall clock, and says so, where the file beside the journal is gone', () => {
    killedInAWait(({ site, hands, again }) => {
      rmSync(join(site.folder, 'clocks'), { recursive: true })
      hands.pass(300)
      const run = again()
      expect(run.warnings).toHaveLength(1)
      expect(end(run)).toBe('')
    })
  })
})
