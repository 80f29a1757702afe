import { readFileSync } from 'node:fs'
import type { RecordsResult, Run, Site } from '@lockwright/records'
import { afterAll, describe, expect, it } from 'vitest'
import { unsyncedDisk } from '../../packages/records/fixtures/faulty-disk.js'
import { inFolder, type ScriptedClock, scriptedClock, writeRoster } from '../../packages/records/fixtures/plant.js'
import { auditRun } from '../../packages/records/src/audit/audit-run.js'
import { readGrounds } from '../../packages/records/src/audit/evidence.js'
import { onDisk } from '../../packages/records/src/disk/disk-in-use.js'
import { readRoster } from '../../packages/records/src/roster-file.js'
import { counted } from './counted.js'
import { begin, issuedSite, libraryMachine, opener, play, type Script, scriptOf, takeUp } from './scripted-run.js'

const seed = 41
const count = counted(seed)
const machine = libraryMachine('booster-pump-precharge.md')
const script: Script = onDisk(unsyncedDisk, () =>
  inFolder((folder) => scriptOf(issuedSite(folder, machine), machine, seed))
)
const nine = '2026-03-02T09:00:00.000Z'
const week = 7 * 24 * 3600

function value(result: RecordsResult<Run>): Run {
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

function onSite(body: (site: Site, clock: ScriptedClock) => void): void {
  inFolder((folder) => {
    onDisk(unsyncedDisk, () => {
      issuedSite(folder, machine)
      body({ folder }, scriptedClock(nine))
    })
  })
}

/** Answers, from the place where the run stands to where the script has that many. */
function goOn(run: Run, clock: ScriptedClock, until = script.beats.length): void {
  for (const beat of script.beats.slice(run.entries.length - 1, until)) {
    const taken = play(run, clock, beat)
    expect(taken.ok, JSON.stringify(taken)).toBe(true)
  }
}

/** What the audit finds in each question. */
function found(site: Site, run: Run): Readonly<Record<string, readonly string[]>> {
  const audit = auditRun(readGrounds(site), run.file, readFileSync(run.file))
  return Object.fromEntries(audit.verdicts.map(({ question, findings }) => [question, findings.map(({ id }) => id)]))
}

/** Where to break off: everywhere would be as good, and takes longer. */
const places = script.beats.flatMap((_, index) => (index % 4 === 2 ? [index + 1] : []))

afterAll(() => count.tell('Clocks and weeks'))

describe('a tablet that lay for a week', () => {
  it('is taken up where it was left, whatever it counted meanwhile, and the record says that it lay', () => {
    for (const place of places) {
      onSite((site, clock) => {
        count.one('weeks away')
        const first = value(begin(site, machine, clock))
        goOn(first, clock, place)
        first.close()
        const last = first.entries.at(-1)
        clock.restart(week)
        const run = value(takeUp(site, machine, clock))
        expect(run.entries).toEqual(first.entries)
        expect(run.snapshot).toEqual(first.snapshot)
        goOn(run, clock)
        expect(run.snapshot.status).toBe('finished')
        const next = run.entries[place + 1]
        expect(next?.session).toBe(2)
        expect((next?.elapsed ?? 0) - (last?.elapsed ?? 0)).toBeGreaterThanOrEqual(week * 1000)
        run.close()
        const { whole, followed } = found(site, run)
        expect(whole).toEqual([])
        expect(followed).toEqual([])
      })
    }
  })

  it('finds a qualification that ended meanwhile', () => {
    const gated = script.beats.findIndex(({ event }) => event.kind === 'signed')
    onSite((site, clock) => {
      const first = value(begin(site, machine, clock))
      goOn(first, clock, gated)
      first.close()
      const roster = readRoster(site)
      if (!roster.ok) throw new Error(roster.faults[0].what)
      const ended = roster.value.people.map((one) => ({
        ...one,
        qualifications: one.qualifications.map((held) => ({ ...held, validUntil: '2026-03-05' }))
      }))
      writeRoster(site, ended, roster.value.serial + 1)
      clock.restart(week)
      const run = value(takeUp(site, machine, clock))
      const beat = script.beats[gated]
      if (beat === undefined) throw new Error('nothing is signed')
      count.one('qualifications that ended')
      expect(play(run, clock, beat)).toMatchObject({ ok: false, refusals: [{ kind: 'not-qualified' }] })
      expect(run.entries.length).toBe(gated + 1)
      run.close()
    })
  })
})

describe('a clock that is wrong', () => {
  it.each([
    ['back by an hour', -3600],
    ['back to the year 2000', -826_000_000]
  ])('set %s between two answers stops nothing, and the audit tells it', (_, by) => {
    for (const place of places) {
      onSite((site, clock) => {
        count.one('clocks set back')
        const run = value(begin(site, machine, clock))
        goOn(run, clock, place)
        clock.setWall(by)
        const taken = run.take({ kind: 'note', text: 'What does the clock say', by: opener })
        expect(taken.ok).toBe(true)
        expect(run.entries.at(-1)?.elapsed).toBeGreaterThanOrEqual(run.entries.at(-2)?.elapsed ?? 0)
        run.close()
        expect(found(site, run)['timely']).toContain('clock-ran-back')
      })
    }
  })

  it('set back while the run lay never makes the time since its opening run back', () => {
    for (const place of places) {
      onSite((site, clock) => {
        count.one('clocks set back between sessions')
        const first = value(begin(site, machine, clock))
        goOn(first, clock, place)
        first.close()
        clock.restart(-5000)
        const run = value(takeUp(site, machine, clock))
        const taken = run.take({ kind: 'note', text: 'Back again', by: opener })
        expect(taken.ok).toBe(true)
        expect(run.entries.at(-1)?.elapsed).toBe(run.entries.at(-2)?.elapsed)
        run.close()
        expect(found(site, run)['timely']).toContain('clock-ran-back')
      })
    }
  })

  it('set on ends no wait', () => {
    const over = script.beats.findIndex(({ event }) => event.kind === 'wait-over')
    onSite((site, clock) => {
      count.one('clocks set on')
      const run = value(begin(site, machine, clock))
      goOn(run, clock, over)
      clock.setWall(24 * 3600)
      const beat = script.beats[over]
      if (beat === undefined) throw new Error('nothing is waited for')
      expect(play(run, clock, { ...beat, seconds: 30 })).toMatchObject({ ok: false, refusals: [{ kind: 'too-early' }] })
      expect(play(run, clock, beat).ok).toBe(true)
      run.close()
    })
  })
})

it('counted what was injected above', () => {
  expect(count.total()).toBeGreaterThanOrEqual(40)
})
