import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { fanMachine } from '../../fixtures/fan-machine.js'
import { fanJob, inFolder, person, plantSite, type Step, scriptedClock, signerOf, walk } from '../../fixtures/plant.js'
import { issue } from '../issue.js'
import { resumeRun, startRun } from '../run.js'
import { layout } from '../site.js'
import { gather, readGrounds } from './evidence.js'
import { fit } from './fit.js'

const looked: Step = { seconds: 9, by: 'odd', event: { kind: 'resumed', locksOn: true } }
const noted: Step = { seconds: 9, by: 'odd', event: { kind: 'note', text: 'The battery was empty' } }

/** What the audit says of the fan job with the runner dying before step `at`, and these steps after it. */
function broken(at: number, after: readonly Step[]): readonly string[] {
  return inFolder((folder) => {
    const site = plantSite(folder)
    const clock = scriptedClock()
    issue({ site, machine: fanMachine, signer: signerOf('birk'), clock })
    const run = startRun({ site, machine: fanMachine, mode: 'issued', by: person('odd'), clock, id: 'fan' })
    if (!run.ok) throw new Error(JSON.stringify(run.faults))
    walk(run.value, clock, fanJob.slice(0, at))
    run.value.close()
    clock.restart(600)
    const again = resumeRun({ site, run: run.value.id, machine: fanMachine, clock })
    if (!again.ok) throw new Error(JSON.stringify(again.faults))
    walk(again.value, clock, [...after, ...fanJob.slice(at)])
    again.value.close()
    const file = layout.journal(site, 'fan')
    return fit(gather(readGrounds(site), file, readFileSync(file))).found.map(
      ({ weight, id, seq }) => `${weight} ${id} ${seq}`
    )
  })
}

describe('a run whose runner died', () => {
  const work = fanJob.findIndex(({ event }) => event.kind === 'done' && event.state === 'change')

  it('is doubted where it went on behind locks that nobody looked at', () => {
    expect(broken(work, [])).toEqual([`doubt locks-not-looked-at ${work + 2}`])
    expect(broken(work, [noted])).toEqual([`doubt locks-not-looked-at ${work + 3}`])
    expect(broken(work, [looked])).toEqual([])
    expect(broken(work, [noted, looked])).toEqual([])
  })

  it('is not where no lock hung', () => {
    expect(broken(1, [])).toEqual([])
    expect(broken(fanJob.length - 1, [])).toEqual([])
  })
})
