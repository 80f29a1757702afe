import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { audit, completeLog, folderStore, type RunEvent, type Site, startRun } from '@lockwright/records'
import { describe, expect, it } from 'vitest'
import { fanMachine } from '../../packages/records/fixtures/fan-machine.js'
import {
  fanJob,
  person,
  plantSite,
  type ScriptedClock,
  type Step,
  scriptedClock,
  signerOf,
  walk
} from '../../packages/records/fixtures/plant.js'
import { issue } from '../../packages/records/src/issue.js'

const locking = fanJob.findIndex(({ event }) => event.kind === 'lock-hung')
const energized = fanJob.findIndex(({ event }) => event.kind === 'done' && `${event.state}` === 'energize-q1')

type Mode = 'issued' | 'draft' | 'rehearsal'

/** The steps in a run of that name. Gives its file. */
function recorded(site: Site, clock: ScriptedClock, id: string, mode: Mode, steps: readonly Step[]): string {
  const run = startRun({ site, machine: fanMachine, mode, by: person('odd'), clock, id })
  if (!run.ok) throw new Error(JSON.stringify(run.faults))
  expect(walk(run.value, clock, steps)).toMatchObject({ ok: true })
  run.value.close()
  return run.value.file
}

const livHangs: Step = {
  seconds: 40,
  by: 'liv',
  event: { kind: 'lock-hung', state: 'lock-q1', point: 'Q1', lock: '41' } as unknown as Step['event']
}
const livStops: Step = { seconds: 30, by: 'liv', event: { kind: 'stopped', reason: 'Spare part is missing' } }
/** The whole job as Liv does it with lock 41, up to its sign-off. */
const livUnlocks = (
  JSON.parse(JSON.stringify(fanJob).replaceAll('"odd"', '"liv"').replaceAll('"17"', '"41"')) as readonly Step[]
).slice(0, -1)

/**
 * What is found of run `odd`, which switches Q1 on after run `liv` was recorded on another tablet, that `odd` knew
 * nothing of: nothing refused it. The journal of `liv` comes in afterwards.
 */
async function found(liv: readonly Step[], mode: Mode = 'issued'): Promise<readonly string[]> {
  const folder = mkdtempSync(join(tmpdir(), 'lockwright-safety-'))
  try {
    const site = plantSite(folder)
    const clock = scriptedClock()
    issue({ site, machine: fanMachine, signer: signerOf('birk'), clock })
    const file = recorded(site, clock, 'liv', mode, liv)
    const kept = readFileSync(file)
    rmSync(file)
    rmSync(join(folder, 'log'), { recursive: true })
    clock.pass(60)
    recorded(site, clock, 'odd', 'issued', fanJob)
    writeFileSync(file, kept)
    completeLog(site)
    const report = await audit({ store: folderStore(site), clock })
    return report.runs.flatMap(({ run, answer, verdicts }) =>
      verdicts.flatMap(({ question, findings }) =>
        findings
          .filter(({ id }) => id === 'energized-over-lock')
          .map(({ weight, seq, what }) => `${run} ${answer}, ${question}: ${weight} at ${seq}: ${what}`)
      )
    )
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

describe('the audit of a site', () => {
  it.each([
    ['stopped with it on', [livHangs, livStops], 'run liv, which was stopped'],
    ['still open', [livHangs], 'run liv, which is still open']
  ])('finds a run that switched on a point while a lock of another run hung there, %s', async (_, then, how) => {
    const all = await found([...fanJob.slice(0, locking), ...then])
    expect(all).toHaveLength(1)
    expect(all[0]).toContain(`odd findings, followed: fault at ${energized + 2}: Q1 was switched on`)
    expect(all[0]).toContain('lock 41 of liv on Q1')
    expect(all[0]).toContain(how)
  })

  it('finds nothing where the other lock came off before, or hung in a rehearsal', async () => {
    expect(await found(livUnlocks)).toEqual([])
    expect(await found([...fanJob.slice(0, locking), livHangs, livStops], 'rehearsal')).toEqual([])
  })
})

describe('a lock that was taken off for the run that left it', () => {
  it('hangs no more by the audit, and nothing was switched on over it', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'lockwright-safety-'))
    try {
      const site = plantSite(folder)
      const clock = scriptedClock()
      issue({ site, machine: fanMachine, signer: signerOf('birk'), clock })
      recorded(site, clock, 'liv', 'issued', [...fanJob.slice(0, locking), livHangs, livStops])
      clock.pass(60)
      const off: RunEvent = {
        kind: 'lock-removed',
        state: 'tell',
        point: 'Q1',
        owner: 'liv',
        from: { run: 'liv', lock: '41' },
        by: 'liv'
      } as unknown as RunEvent
      const { by: _, ...event } = off
      recorded(site, clock, 'odd', 'issued', [{ seconds: 10, by: 'liv', event }, ...fanJob])
      const report = await audit({ store: folderStore(site), clock })
      expect(report.hanging).toEqual([])
      expect(report.takenOffLater).toMatchObject([{ lock: '41', run: 'liv', offIn: { run: 'odd' } }])
      expect(report.runs.find(({ run }) => run === 'odd')?.answer).toBe('good')
    } finally {
      rmSync(folder, { recursive: true, force: true })
    }
  })
})
