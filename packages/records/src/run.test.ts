import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { advance, start } from '@lockwright/machine'
import { describe, expect, it } from 'vitest'
import { fanMachine } from '../fixtures/fan-machine.js'
import { forge } from '../fixtures/forge.js'
import {
  enterFromSheet,
  fanJob,
  inFolder,
  keyOf,
  person,
  plantPeople,
  plantSite,
  type ScriptedClock,
  scriptedClock,
  signerOf,
  walk,
  writeRoster
} from '../fixtures/plant.js'
import { eventOf, type RunId } from './entry.js'
import { draftMachine, issue } from './issue.js'
import { listRuns } from './list-runs.js'
import { resumeRun, startRun } from './run.js'
import type { Run, Taken } from './run-types.js'
import { layout, type Site } from './site.js'

interface Stage {
  readonly site: Site
  readonly clock: ScriptedClock
  readonly run: Run
}

/** A site with the fan machine issued and a run of it opened by Odd, who holds no qualification. */
function onStage(body: (stage: Stage) => void, mode: 'issued' | 'draft' | 'rehearsal' = 'issued'): void {
  inFolder((folder) => {
    const site = plantSite(folder)
    const clock = scriptedClock()
    if (mode === 'issued') issue({ site, machine: fanMachine, signer: signerOf('birk'), clock })
    const run = startRun({ site, machine: fanMachine, mode, by: person('odd'), clock, id: 'fan' })
    if (!run.ok) throw new Error(JSON.stringify(run.faults))
    body({ site, clock, run: run.value })
    run.value.close()
  })
}

const resume = ({ site, clock }: Stage) => resumeRun({ site, run: 'fan' as RunId, machine: fanMachine, clock })
const why = (taken: Taken | null): string => (taken === null || taken.ok ? '' : taken.refusals[0].kind)
const upTo = (kind: string) =>
  fanJob.slice(
    0,
    fanJob.findIndex((step) => step.event.kind === kind)
  )
const signOff = fanJob.find((step) => step.event.kind === 'signed')

describe('a run', () => {
  it('has each entry in its file before `take` returns, and moves as `advance` says', () => {
    onStage(({ clock, run }) => {
      let snapshot = run.snapshot
      expect(run.entries.length).toBe(1)
      for (const [index, step] of fanJob.entries()) {
        const taken = walk(run, clock, [step])
        if (!taken?.ok) return expect.fail(JSON.stringify(taken))
        const lines = readFileSync(run.file, 'utf8').split('\n')
        expect(lines.length).toBe(index + 3)
        expect(JSON.parse(lines.at(-2) ?? '')).toEqual(taken.entry)
        const advanced = advance(fanMachine, snapshot, eventOf(taken.entry))
        expect(advanced).toEqual({ ok: true, snapshot: run.snapshot })
        snapshot = run.snapshot
      }
      expect(run.snapshot.status).toBe('finished')
      expect(start(fanMachine).status).toBe('new')
    })
  })

  it('writes nothing where `advance` refuses', () => {
    onStage(({ clock, run }) => {
      const before = readFileSync(run.file)
      const snapshot = run.snapshot
      const taken = walk(run, clock, fanJob.slice(2, 3))
      expect(why(taken)).toBe('not-asked')
      expect(readFileSync(run.file)).toEqual(before)
      expect(run.snapshot).toBe(snapshot)
    })
  })

  it('refuses an answer that cannot be written in one spelling', () => {
    onStage(({ run }) => {
      expect(why(run.take({ kind: 'note', text: 'half \ud800', by: person('odd') }))).toBe('incomplete')
      expect(why(run.take({ kind: 'note', text: 'x'.repeat(70_000), by: person('odd') }))).toBe('incomplete')
      const more = { kind: 'note' as const, text: 'x', by: person('odd'), extra: 1 }
      expect(why(run.take(more))).toBe('incomplete')
      expect(run.entries.length).toBe(1)
    })
  })

  it('goes on after a break anywhere, exactly where it was', () => {
    onStage((stage) => {
      const { clock } = stage
      let run = stage.run
      for (const [index, step] of fanJob.entries()) {
        const last = walk(run, clock, [step])
        if (!last?.ok) return expect.fail(JSON.stringify(last))
        const { snapshot, entries } = run
        run.close()
        clock.restart(30)
        const resumed = resume(stage)
        if (!resumed.ok) return expect.fail(JSON.stringify(resumed.faults))
        run = resumed.value
        expect(run.snapshot).toEqual(snapshot)
        expect(run.entries).toEqual(entries)
        expect(run.setAside).toBeNull()
        expect(entries.at(-1)?.session).toBe(index + 1)
      }
      // 30 s for each break before an entry, by the wall clock, and what the steps took, by the steady one.
      const spent = fanJob.reduce((sum, step) => sum + step.seconds * 1000, 0)
      expect(run.entries.at(-1)?.elapsed).toBe(spent + 30_000 * (fanJob.length - 1))
      run.close()
    })
  })

  it('is held by one writer', () => {
    onStage((stage) => {
      expect(resume(stage)).toMatchObject({ ok: false, faults: [{ id: 'in-use' }] })
      stage.run.close()
      expect(why(stage.run.take({ kind: 'note', text: 'late', by: person('odd') }))).toBe('not-written')
      const resumed = resume(stage)
      expect(resumed.ok).toBe(true)
      if (resumed.ok) resumed.value.close()
      expect(readdirSync(layout.runs(stage.site))).toEqual(['fan.jsonl'])
    })
  })

  it('is not resumed over another machine, nor where its journal does not replay', () => {
    onStage((stage) => {
      walk(stage.run, stage.clock, fanJob.slice(0, 4))
      stage.run.close()
      const other = { ...fanMachine, revision: 3 } as typeof fanMachine
      const wrong = resumeRun({ site: stage.site, run: 'fan' as RunId, machine: other, clock: stage.clock })
      expect(wrong).toMatchObject({ ok: false, faults: [{ id: 'other-machine' }] })
      const journal = readFileSync(stage.run.file, 'utf8')
      writeFileSync(
        stage.run.file,
        forge(journal, (entry) => (entry.event.kind === 'lock-hung' ? null : entry))
      )
      expect(resume(stage)).toMatchObject({ ok: false, faults: [{ id: 'does-not-replay', line: 4 }] })
      writeFileSync(stage.run.file, journal.replace('"lock":"17"', '"lock":"18"'))
      expect(resume(stage)).toMatchObject({ ok: false, faults: [{ id: 'chain-broken', line: 4 }] })
    })
  })

  it('does not overwrite another, and takes no name that is none', () => {
    onStage(({ site, clock }) => {
      const again = (id: string) => startRun({ site, machine: fanMachine, mode: 'draft', by: person('odd'), clock, id })
      expect(again('fan')).toMatchObject({ ok: false, faults: [{ id: 'in-use' }] })
      expect(again('../fan')).toMatchObject({ ok: false, faults: [{ id: 'not-a-run-id' }] })
      const named = startRun({ site, machine: fanMachine, mode: 'draft', by: person('odd'), clock })
      if (!named.ok) return expect.fail('not started')
      expect(named.value.id).toMatch(/^20260302-f-12-[0-9a-f]{8}$/)
      named.value.close()
      const { runs, faults } = listRuns(site)
      expect(faults).toEqual([])
      expect(runs.map(({ mode, status, entries }) => [mode, status, entries])).toContainEqual(['draft', 'running', 1])
      expect(runs.length).toBe(2)
    })
  })
})

describe('what the roster has to say in an issued run', () => {
  it('a sign-off is nothing without the key of the person who signs', () => {
    onStage(({ clock, run, site }) => {
      walk(run, clock, upTo('signed'))
      if (signOff === undefined) return expect.fail('no sign-off')
      const asked = { ...signOff.event, by: person('runa') }
      expect(why(run.take(asked))).toBe('no-key')
      expect(why(run.sign(asked, signerOf('odd')))).toBe('no-key')
      expect(why(run.sign(asked, { person: person('runa'), key: keyOf('odd') }))).toBe('no-key')
      writeRoster(
        site,
        plantPeople.map((one) => (one.id === 'runa' ? { ...one, revokedAt: '2026-03-01T00:00:00Z' } : one)),
        2
      )
      expect(why(run.sign(asked, signerOf('runa')))).toBe('no-key')
      writeRoster(site, plantPeople, 3)
      const taken = run.sign(asked, signerOf('runa'))
      expect(taken.ok && taken.entry.signature).toEqual({
        by: 'runa',
        name: 'Runa Solvik',
        at: clock.now().at,
        meaning: 'The cover may be opened'
      })
    })
  })

  it('a step for a role is done by someone who holds its qualifications that day', () => {
    onStage(({ clock, run, site }) => {
      walk(run, clock, upTo('reading'))
      const read = { ...fanJob.find((step) => step.event.kind === 'reading')?.event, by: person('odd') }
      expect(why(run.take(read as Parameters<Run['take']>[0]))).toBe('not-qualified')
      const asked = { ...read, by: person('runa') } as Parameters<Run['take']>[0]
      const ended = { is: 'electrical-lv', validFrom: '2026-01-01', validUntil: '2026-03-01' }
      writeRoster(
        site,
        plantPeople.map((one) => (one.id === 'runa' ? { ...one, qualifications: [ended] } : one)),
        2
      )
      expect(why(run.take(asked))).toBe('not-qualified')
      writeRoster(site, plantPeople, 3)
      expect(run.take(asked).ok).toBe(true)
    })
  })

  it('a rehearsal asks for neither, and says so in its first entry', () => {
    onStage(({ clock, run, site }) => {
      const last = walk(
        run,
        clock,
        fanJob.map((step) => ({ ...step, by: step.by === 'runa' ? 'liv' : 'odd', signed: false }))
      )
      // The second lock was hers; her id only has to be the same throughout.
      expect(why(last)).toBe('crew')
      expect(run.entries[0]?.event).toMatchObject({ mode: 'rehearsal' })
      expect(run.entries.some((entry) => entry.event.kind === 'signed' && entry.jws === undefined)).toBe(true)
      expect(draftMachine(site, run.entries[0]?.opens?.machine ?? '').ok).toBe(true)
    }, 'rehearsal')
  })
})

describe('a run entered from paper', () => {
  it('bears the times of the sheet, and beside them who typed it in and when', () => {
    inFolder((folder) => {
      const site = plantSite(folder)
      const clock = scriptedClock('2026-03-05T12:00:00.000Z')
      issue({ site, machine: fanMachine, signer: signerOf('birk'), clock: scriptedClock() })
      const run = startRun({
        site,
        machine: fanMachine,
        mode: 'issued',
        by: person('odd'),
        clock,
        onPaper: { enteredBy: person('birk'), at: '2026-03-02T09:00:00Z' }
      })
      if (!run.ok) return expect.fail(JSON.stringify(run.faults))
      enterFromSheet(run.value, clock, '2026-03-02T09:00:00Z')
      expect(run.value.entries[1]).toMatchObject({
        at: '2026-03-02T09:00:20.000Z',
        entered: { at: '2026-03-05T12:00:01.000Z', by: 'birk' }
      })
      const last = run.value.entries.at(-1)
      expect(last?.signature).toMatchObject({ by: 'birk', meaning: 'Entered from paper: Returned to service' })
      run.value.close()
    })
  })
})
