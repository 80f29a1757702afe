import { describe, expect, it } from 'vitest'
import { fanMachine } from '../../fixtures/fan-machine.js'
import { forge } from '../../fixtures/forge.js'
import { keyFor, nothing, onRecord, replaced, seqOf } from '../../fixtures/on-record.js'
import { fanJob, inFolder, person, plantSite, type Step, scriptedClock, signerOf, walk } from '../../fixtures/plant.js'
import type { Entry } from '../entry.js'
import { issue } from '../issue.js'
import { startRun } from '../run.js'
import { audit } from './audit.js'

describe('timely', () => {
  const waitOver = seqOf('wait-over')

  it('a wait that was cut short by setting the clock forward is told', () => {
    inFolder((folder) => {
      const site = plantSite(folder)
      const clock = scriptedClock()
      issue({ site, machine: fanMachine, signer: signerOf('birk'), clock })
      const run = startRun({ site, machine: fanMachine, mode: 'issued', by: person('odd'), clock, id: 'fan' })
      if (!run.ok) return expect.fail(JSON.stringify(run.faults))
      walk(run.value, clock, fanJob.slice(0, waitOver - 2))
      clock.setWall(600)
      walk(run.value, clock, [{ seconds: 3, by: 'odd', event: fanJob[waitOver - 2]?.event ?? expect.fail('no wait') }])
      clock.setWall(-600)
      walk(run.value, clock, [{ seconds: 30, by: 'odd', event: { kind: 'note', text: 'back' } }])
      run.value.close()
      const timely = audit({ site, clock, run: 'fan' }).runs[0]?.verdicts[3]
      expect(timely?.findings.map((one) => `${one.weight} ${one.id} ${one.seq}`)).toEqual([
        `doubt wait-doubtful ${waitOver}`,
        `fault clock-ran-back ${waitOver + 1}`
      ])
    })
  })

  it('clocks that ran back or fell behind are told', () => {
    onRecord(({ journal, after }) => {
      const back = forge(journal, (entry) => (entry.seq === 10 ? { ...entry, elapsed: 1 } : entry), keyFor)
      expect(after(back).timely).toContain('fault clock-ran-back 10')
      const late = (entry: Entry) => ({ ...entry, elapsed: entry.elapsed + (entry.seq >= 17 ? 60_000 : 0) })
      expect(after(forge(journal, late, keyFor)).timely).toEqual(['fault clock-set-back 17'])
    })
  })

  it('a step faster than a person can do it is told, with what it took', () => {
    const change = fanJob.findIndex((step) => step.event.kind === 'done' && step.event.state === 'change') + 2
    // The author wrote 20 minutes; a tenth of that is the least.
    onRecord(({ findings }) => expect(findings()).toEqual(nothing), replaced(change, { seconds: 120 }))
    onRecord(
      ({ report, findings }) => {
        expect(findings()).toEqual({ ...nothing, timely: [`fault too-fast ${change}`] })
        expect(report().runs[0]?.verdicts[3].findings[0]).toMatchObject({
          what: '"Change the fan bearing" was answered after 119 s; a person needs 120 s at the least.',
          where: `runs/fan.jsonl:${change}, at line 54 of the procedure`
        })
      },
      replaced(change, { seconds: 119 })
    )
    onRecord(({ findings }) => expect(findings().timely).toEqual(['fault too-fast 5']), [
      ...fanJob.slice(0, 2),
      {
        seconds: 1,
        by: 'odd',
        event: { kind: 'lock-hung', state: 'lock-q1', point: 'Q1', lock: '17' }
      },
      { seconds: 1, by: 'odd', event: fanJob[3]?.event ?? expect.fail('no step') }
    ] as readonly Step[])
  })
})
