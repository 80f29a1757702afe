import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { inspect, type Run, type RunEvent, revokePerson, rotateKey, type Site, startRun } from '@lockwright/records'
import { describe, expect, it } from 'vitest'
import { fanMachine } from '../../packages/records/fixtures/fan-machine.js'
import {
  fanJob,
  inFolder,
  keyOf,
  person,
  plantSite,
  type ScriptedClock,
  scriptedClock,
  signerOf,
  walk
} from '../../packages/records/fixtures/plant.js'
import { gather, readGrounds } from '../../packages/records/src/audit/evidence.js'
import { fit } from '../../packages/records/src/audit/fit.js'
import { issue } from '../../packages/records/src/issue.js'

const root = keyOf('root')

function atPlant(body: (site: Site, clock: ScriptedClock) => void): void {
  inFolder((folder) => {
    const site = plantSite(folder)
    const clock = scriptedClock()
    issue({ site, machine: fanMachine, signer: signerOf('birk'), clock })
    body(site, clock)
  })
}

function opened(site: Site, clock: ScriptedClock, by: string, mode: 'issued' | 'draft' = 'issued'): Run | string {
  const run = startRun({ site, machine: fanMachine, mode, by: person(by), clock })
  return run.ok ? run.value : run.faults[0].what
}

function begun(site: Site, clock: ScriptedClock, mode: 'issued' | 'draft' = 'issued'): Run {
  const run = opened(site, clock, 'odd', mode)
  if (typeof run === 'string') throw new Error(run)
  return run
}

const told = (run: Run, event: object, by: string): string => {
  const taken = run.take({ ...event, by: person(by) } as unknown as RunEvent)
  return taken.ok ? '' : `${taken.refusals[0].kind}: ${taken.refusals[0].why}`
}

const fitOf = (site: Site, run: Run): readonly string[] => {
  const { found } = fit(gather(readGrounds(site), run.file, readFileSync(run.file)))
  return found.map(({ weight, id, seq }) => `${weight} ${id} ${seq}`)
}

const toldHalt = fanJob.slice(0, 1)
const hung = fanJob.findIndex(({ event }) => event.kind === 'lock-hung')

describe.each(['left', 'revoked'] as const)('someone whose key ended because it was %s', (because) => {
  const end = (site: Site, clock: ScriptedClock, id: string): void => {
    const from = clock.now().at
    const ended = revokePerson({ site, id, from, because, root, clock })
    if (!ended.ok) throw new Error(JSON.stringify(ended.faults))
  }

  it('opens no issued run and does no step in one', () => {
    atPlant((site, clock) => {
      const run = begun(site, clock)
      walk(run, clock, toldHalt)
      clock.pass(10)
      end(site, clock, 'odd')
      expect(opened(site, clock, 'odd')).toContain('may not work here any more')
      expect(told(run, fanJob[1]?.event ?? {}, 'odd')).toContain('not-qualified: `odd` may not work here any more')
      expect(told(run, fanJob[1]?.event ?? {}, 'runa')).toBe('')
      expect(fitOf(site, run)).toEqual([])
      run.close()
    })
  })

  it('gets out, makes it safe and hands over, and nobody hands over to them', () => {
    atPlant((site, clock) => {
      const run = begun(site, clock)
      walk(run, clock, fanJob.slice(0, hung + 2))
      clock.pass(10)
      end(site, clock, 'odd')
      expect(told(run, { kind: 'note', text: 'Last day' }, 'odd')).toBe('')
      const over = (to: string, lock: string) => ({ kind: 'handed-over', to, locks: [{ point: 'Q1', lock }] })
      expect(told(run, over('runa', '8'), 'odd')).toBe('')
      expect(told(run, over('odd', '9'), 'runa')).toContain('not-qualified')
      expect(fitOf(site, run)).toEqual([])
      run.close()
    })
  })

  it('is found by the audit where nothing refused it, from that day on', () => {
    atPlant((site, clock) => {
      const run = begun(site, clock)
      walk(run, clock, toldHalt)
      clock.pass(60)
      const { at } = clock.now()
      clock.pass(60)
      walk(run, clock, fanJob.slice(1, 2))
      // Entered late by the office: the date lies before the last entry.
      revokePerson({ site, id: 'odd', from: at, because, root, clock })
      expect(fitOf(site, run)).toEqual(['fault not-here-any-more 3'])
      run.close()
    })
  })

  it('goes on with a new key, and in drafts', () => {
    atPlant((site, clock) => {
      const draft = begun(site, clock, 'draft')
      end(site, clock, 'odd')
      expect(told(draft, fanJob[0]?.event ?? {}, 'odd')).toBe('')
      draft.close()
      const passphrase = 'new words of odd'
      const rotated = rotateKey({ site, id: 'odd', passphrase, root, clock, cost: 2 ** 15 })
      if (!rotated.ok) throw new Error(JSON.stringify(rotated.faults))
      clock.pass(1)
      const run = opened(site, clock, 'odd')
      expect(typeof run).toBe('object')
      if (typeof run === 'object') run.close()
    })
  })
})

describe('readings that name instruments', () => {
  it('cannot be told to be fit where the list of instruments was removed', () => {
    atPlant((site, clock) => {
      const run = begun(site, clock)
      const reads = fanJob.map((step) =>
        step.event.kind === 'reading' ? { ...step, event: { ...step.event, instrument: 'VT-7' } } : step
      )
      expect(walk(run, clock, reads)).toMatchObject({ ok: true })
      const first = fanJob.findIndex(({ event }) => event.kind === 'reading') + 2
      expect(fitOf(site, run)).toEqual([`doubt instruments-missing ${first}`])
      run.close()
    })
  })
})

describe('an inspection', () => {
  it('is not dated before the procedure was first issued', () => {
    atPlant((site, clock) => {
      const on = (day: string) =>
        inspect({
          site,
          procedure: fanMachine.procedure,
          signer: signerOf('runa'),
          clock,
          on: day,
          employees: ['odd'],
          reviewed: ['odd'],
          deviations: []
        })
      const early = on('2026-03-01')
      expect(early.ok ? '' : early.faults[0].id).toBe('not-issued-yet')
      expect(early.ok ? '' : early.faults[0].what).toContain('first issued here on 2026-03-02')
      const file = on('2026-03-02')
      expect(file.ok && file.value.file.startsWith(join(site.folder, 'inspections'))).toBe(true)
    })
  })
})
