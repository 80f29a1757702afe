import { describe, expect, it } from 'vitest'
import { fanMachine } from '../fixtures/fan-machine.js'
import {
  fanJob,
  inFolder,
  person,
  plantSite,
  type ScriptedClock,
  scriptedClock,
  signerOf,
  walk
} from '../fixtures/plant.js'
import { issue } from './issue.js'
import { resumeRun, startRun } from './run.js'
import type { Run } from './run-types.js'
import type { Site } from './site.js'

const started = fanJob.findIndex(({ event }) => event.kind === 'wait-started')
const over = fanJob.find(({ event }) => event.kind === 'wait-over')?.event

/** A run whose wait of five minutes has just begun. */
function waiting(body: (run: Run, clock: ScriptedClock, site: Site) => void): void {
  inFolder((folder) => {
    const site = plantSite(folder)
    const clock = scriptedClock()
    issue({ site, machine: fanMachine, signer: signerOf('birk'), clock })
    const run = startRun({ site, machine: fanMachine, mode: 'issued', by: person('odd'), clock, id: 'fan' })
    if (!run.ok) throw new Error(JSON.stringify(run.faults))
    walk(run.value, clock, fanJob.slice(0, started + 1))
    body(run.value, clock, site)
    run.value.close()
  })
}

const end = (run: Run) => {
  if (over === undefined) throw new Error('no wait')
  return run.take({ ...over, by: person('odd') })
}

describe('a wait', () => {
  it('is not ended by a clock that was set on', () => {
    waiting((run, clock) => {
      clock.pass(60)
      clock.setWall(3600)
      const refused = end(run)
      expect(refused).toMatchObject({ ok: false, refusals: [{ kind: 'too-early' }] })
      if (!refused.ok) expect(refused.refusals[0].why).toContain('has 240 s to go')
      clock.pass(238)
      expect(end(run).ok).toBe(true)
    })
  })

  it('is longer, never shorter, by a clock that was set back', () => {
    waiting((run, clock) => {
      clock.pass(10)
      clock.setWall(-120)
      clock.pass(300)
      expect(end(run)).toMatchObject({ ok: false, refusals: [{ kind: 'too-early' }] })
      clock.pass(110)
      expect(end(run).ok).toBe(true)
    })
  })

  it('goes by the wall clock where the run was taken up anew, for nothing else has counted', () => {
    waiting((run, clock, site) => {
      run.close()
      clock.restart(299)
      const again = resumeRun({ site, run: run.id, machine: fanMachine, clock })
      if (!again.ok) throw new Error(JSON.stringify(again.faults))
      expect(end(again.value).ok).toBe(false)
      clock.pass(1)
      expect(end(again.value).ok).toBe(true)
      again.value.close()
    })
  })
})
