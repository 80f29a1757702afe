import { readFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { locksElsewhere, type Run, type RunEvent, type Site, startRun } from '@lockwright/records'
import { describe, expect, it } from 'vitest'
import { fanMachine } from '../../packages/records/fixtures/fan-machine.js'
import {
  fanJob,
  inFolder,
  person,
  plantSite,
  type ScriptedClock,
  type Step,
  scriptedClock,
  signerOf,
  walk
} from '../../packages/records/fixtures/plant.js'
import { issue } from '../../packages/records/src/issue.js'

interface Stage {
  readonly site: Site
  readonly clock: ScriptedClock
  readonly begin: (id: string, mode?: 'issued' | 'draft' | 'rehearsal') => Run
}

function atPlant(body: (stage: Stage) => void): void {
  inFolder((folder) => {
    const site = plantSite(folder)
    const clock = scriptedClock()
    issue({ site, machine: fanMachine, signer: signerOf('birk'), clock })
    body({
      site,
      clock,
      begin: (id, mode = 'issued') => {
        const run = startRun({ site, machine: fanMachine, mode, by: person('odd'), clock, id })
        if (!run.ok) throw new Error(JSON.stringify(run.faults))
        return run.value
      }
    })
  })
}

const event = (one: object, by: string): RunEvent => ({ ...one, by: person(by) }) as unknown as RunEvent
const told = (run: Run, one: object, by: string): string => {
  const taken = run.take(event(one, by))
  return taken.ok ? '' : taken.refusals.map(({ kind, why }) => `${kind}: ${why}`).join(' ')
}

const locking = fanJob.findIndex(({ event: one }) => one.kind === 'lock-hung')
const unlocked = fanJob.findIndex(({ event: one }) => one.kind === 'done' && `${one.state}` === 'unlock-q1')
const energized = fanJob.findIndex(({ event: one }) => one.kind === 'done' && `${one.state}` === 'energize-q1')

/** The fan job with other padlocks. */
const otherLocks: readonly Step[] = fanJob.map((step) => {
  const text = JSON.stringify(step).replace('"lock":"17"', '"lock":"23"').replace('"lock":"4"', '"lock":"24"')
  return JSON.parse(text) as Step
})

/** Liv hangs lock 41 on Q1 in a run of its own, and that is left open or closed with the lock on. */
function livLocks({ clock, begin }: Stage, how: 'open' | 'paused' | 'stopped', mode?: 'issued' | 'draft'): void {
  const run = begin('first', mode)
  walk(run, clock, fanJob.slice(0, locking))
  clock.pass(30)
  expect(told(run, { kind: 'lock-hung', state: 'lock-q1', point: 'Q1', lock: '41' }, 'liv')).toBe('')
  if (how === 'paused') expect(told(run, { kind: 'paused', reason: 'Dinner' }, 'liv')).toBe('')
  if (how === 'stopped') expect(told(run, { kind: 'stopped', reason: 'Spare part is missing' }, 'liv')).toBe('')
  run.close()
  clock.pass(60)
}

const absent = {
  verifiedAway: 'Gate log',
  triedToReach: 'Called twice',
  toldBeforeReturn: 'The shift lead',
  directedBy: 'birk'
}

describe('a lock that hangs by the record of another run', () => {
  it.each(['open', 'paused', 'stopped'] as const)('is shown to a new run on the same equipment: %s', (how) => {
    atPlant((stage) => {
      livLocks(stage, how)
      const run = stage.begin('second')
      const status = how === 'open' ? 'running' : how
      expect(run.elsewhere).toMatchObject([{ point: 'Q1', lock: '41', person: 'liv', run: 'first', status }])
      expect(locksElsewhere(stage.site, 'F-12', 'first')).toEqual([])
      expect(locksElsewhere(stage.site, 'F-13', 'second')).toEqual([])
      run.close()
    })
  })

  it('is found without the site log too', () => {
    atPlant((stage) => {
      livLocks(stage, 'stopped')
      rmSync(join(stage.site.folder, 'log'), { recursive: true })
      expect(locksElsewhere(stage.site, 'F-12', 'second')).toMatchObject([{ lock: '41', status: 'stopped' }])
    })
  })

  it.each(['41', ' 041 ', '\uff14\uff11'])('is not hung again by another person, as %j', (lock) => {
    atPlant((stage) => {
      livLocks(stage, 'stopped')
      const run = stage.begin('second')
      walk(run, stage.clock, fanJob.slice(0, locking))
      const refused = told(run, { kind: 'lock-hung', state: 'lock-q1', point: 'Q1', lock }, 'odd')
      expect(refused).toContain('lock-elsewhere')
      expect(refused).toContain('lock 41 of liv on Q1')
      expect(refused).toContain('run first, which was stopped')
      run.close()
    })
  })

  it.each(['issued', 'draft'] as const)('keeps a run from unlocking, switching on and handing back: %s', (mode) => {
    atPlant((stage) => {
      livLocks(stage, 'stopped', mode)
      const run = stage.begin('second', mode)
      const stopped = walk(run, stage.clock, otherLocks)
      expect(stopped).toMatchObject({ ok: false, refusals: [{ kind: 'lock-elsewhere' }] })
      expect(`${run.snapshot.state}`).toBe('unlock-q1')
      const off = { kind: 'lock-removed', state: 'unlock-q1', point: 'Q1', owner: 'liv' }
      const from = { run: 'first', lock: '41' }
      // Nobody but its owner, nor a lock that was never left.
      expect(told(run, { ...off, from }, 'odd')).toMatch(/only its owner|direction of the employer/)
      expect(told(run, { ...off, from: { run: 'first', lock: '42' } }, 'liv')).toContain('left no lock 42')
      expect(told(run, { ...off, from }, 'liv')).toBe('')
      expect(run.elsewhere).toEqual([])
      expect(walk(run, stage.clock, otherLocks.slice(unlocked))).toMatchObject({ ok: true })
      run.close()
      // A draft clears no record for others; the audit does not count it either.
      expect(locksElsewhere(stage.site, 'F-12', 'third').length).toBe(mode === 'issued' ? 0 : 1)
    })
  })

  it('comes off for an absent owner under the three conditions and the direction of the employer', () => {
    atPlant((stage) => {
      livLocks(stage, 'stopped')
      const run = stage.begin('second')
      walk(run, stage.clock, otherLocks)
      const off = {
        kind: 'lock-removed',
        state: 'unlock-q1',
        point: 'Q1',
        owner: 'liv',
        from: { run: 'first', lock: '41' }
      }
      expect(told(run, { ...off, absent: { ...absent, directedBy: 'runa' } }, 'odd')).toContain('not-qualified')
      expect(told(run, { ...off, absent }, 'odd')).toBe('')
      expect(walk(run, stage.clock, otherLocks.slice(unlocked))).toMatchObject({ ok: true })
      run.close()
    })
  })

  it('is taken over by its owner, who hangs the same padlock on the same point', () => {
    atPlant((stage) => {
      livLocks(stage, 'stopped')
      const run = stage.begin('second')
      const liv = JSON.parse(
        JSON.stringify(otherLocks)
          .replaceAll('"by":"odd"', '"by":"liv"')
          .replaceAll('"23"', '"41"')
          .replaceAll('"owner":"odd"', '"owner":"liv"')
      )
      expect(walk(run, stage.clock, (liv as Step[]).slice(0, -1))).toMatchObject({ ok: true })
      run.close()
      expect(locksElsewhere(stage.site, 'F-12', 'third')).toEqual([])
    })
  })

  it('of an open run comes off in that run, and in no other', () => {
    atPlant((stage) => {
      livLocks(stage, 'open')
      const run = stage.begin('second')
      walk(run, stage.clock, otherLocks)
      const off = {
        kind: 'lock-removed',
        state: 'unlock-q1',
        point: 'Q1',
        owner: 'liv',
        from: { run: 'first', lock: '41' }
      }
      expect(told(run, off, 'liv')).toContain('it is still open')
      expect(told(run, { kind: 'stopped', reason: 'Liv works on' }, 'odd')).toBe('')
      run.close()
    })
  })

  it('holds nothing up in a rehearsal, and a rehearsal hangs none', () => {
    atPlant((stage) => {
      livLocks(stage, 'stopped')
      const run = stage.begin('practice', 'rehearsal')
      expect(run.elsewhere).toEqual([])
      walk(run, stage.clock, fanJob.slice(0, locking + 1))
      expect(run.snapshot.locks).toMatchObject([{ lock: '17' }])
      run.close()
      expect(locksElsewhere(stage.site, 'F-12', 'second')).toMatchObject([{ run: 'first' }])
    })
  })

  it('keeps a step from switching on what this run took to be on all the time', () => {
    atPlant((stage) => {
      const { site, clock } = stage
      livLocks(stage, 'stopped')
      const machine = { ...fanMachine, start: 'tell-again' } as typeof fanMachine
      const run = startRun({ site, machine, mode: 'draft', by: person('odd'), clock, id: 'short' })
      if (!run.ok) throw new Error(JSON.stringify(run.faults))
      const from = fanJob.findIndex(({ event: one }) => one.kind === 'done' && `${one.state}` === 'tell-again')
      const last = walk(run.value, clock, fanJob.slice(from))
      expect(run.value.snapshot.ledger.points).toEqual({ Q1: 'on' })
      expect(last).toMatchObject({ ok: false, refusals: [{ kind: 'lock-elsewhere' }] })
      expect(`${run.value.snapshot.state}`).toBe('energize-q1')
      run.value.close()
    })
  })

  it('does not hold up a switching on where none is left', () => {
    atPlant(({ clock, begin }) => {
      for (const id of ['first', 'second']) {
        const run = begin(id)
        expect(walk(run, clock, fanJob)).toMatchObject({ ok: true })
        expect(readFileSync(run.file, 'utf8').split('\n').length).toBeGreaterThan(energized)
        run.close()
      }
    })
  })
})
