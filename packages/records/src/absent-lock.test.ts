import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { fanMachine } from '../fixtures/fan-machine.js'
import { fanJob, inFolder, person, plantSite, scriptedClock, signerOf, walk } from '../fixtures/plant.js'
import { gather, readGrounds } from './audit/evidence.js'
import { fit } from './audit/fit.js'
import type { BareEvent } from './entry.js'
import { issue } from './issue.js'
import { startRun } from './run.js'
import { layout } from './site.js'

const unlocking = fanJob.findIndex(({ event }) => event.kind === 'lock-removed')
const conditions = { verifiedAway: 'Gate log', triedToReach: 'Called twice', toldBeforeReturn: 'The shift lead' }

/** What comes of Odd taking off Runa's lock, under that direction; and what the audit says of it. */
function takenOff(
  directedBy: string | undefined,
  mode: 'issued' | 'draft' | 'rehearsal'
): { readonly refused: string; readonly audit: readonly string[] } {
  return inFolder((folder) => {
    const site = plantSite(folder)
    const clock = scriptedClock()
    issue({ site, machine: fanMachine, signer: signerOf('birk'), clock })
    const run = startRun({ site, machine: fanMachine, mode, by: person('odd'), clock, id: 'fan' })
    if (!run.ok) throw new Error(JSON.stringify(run.faults))
    walk(run.value, clock, fanJob.slice(0, unlocking))
    const absent = { ...conditions, ...(directedBy === undefined ? {} : { directedBy }) }
    const event = { kind: 'lock-removed', state: 'unlock-q1', point: 'Q1', owner: 'runa', absent }
    const taken = run.value.take({ ...(event as unknown as BareEvent), by: person('odd') })
    run.value.close()
    const file = layout.journal(site, 'fan')
    const { found } = fit(gather(readGrounds(site), file, readFileSync(file)))
    return {
      refused: taken.ok ? '' : taken.refusals.map(({ kind }) => kind).join(' '),
      audit: found.map(({ id }) => id).filter((id) => id.startsWith('lock-') || id === 'not-on-roster')
    }
  })
}

// 29 CFR 1910.147(e)(3): the device may be removed under the direction of the employer.
describe('the lock of someone who is away', () => {
  it('comes off an issued run only under the direction of whoever may direct it for the employer', () => {
    expect(takenOff('birk', 'issued')).toEqual({ refused: '', audit: [] })
    expect(takenOff('runa', 'issued').refused).toBe('not-qualified')
    expect(takenOff('nobody', 'issued').refused).toBe('not-qualified')
    expect(takenOff(undefined, 'issued').refused).toBe('not-qualified')
  })

  it('is told by the audit where nobody refused it', () => {
    expect(takenOff(undefined, 'draft')).toEqual({ refused: '', audit: ['lock-removal-undirected'] })
    expect(takenOff('nobody', 'draft').audit.toSorted()).toEqual(['lock-removal-undirected', 'not-on-roster'])
    expect(takenOff(undefined, 'rehearsal')).toEqual({ refused: '', audit: [] })
  })
})
