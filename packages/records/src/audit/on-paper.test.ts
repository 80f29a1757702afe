import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { fanMachine } from '../../fixtures/fan-machine.js'
import { enterFromSheet, inFolder, person, plantSite, scriptedClock, signerOf } from '../../fixtures/plant.js'
import { issue } from '../issue.js'
import { startRun } from '../run.js'
import { auditRun } from './audit-run.js'
import { readGrounds } from './evidence.js'
import { spansOf } from './verdict.js'

/** Findings of a sheet begun at that time and typed in from noon of 5 March on. */
function findingsOf(sheetFrom: string, issued = '2026-03-01T08:00:00.000Z'): readonly string[] {
  return inFolder((folder) => {
    const site = plantSite(folder)
    const clock = scriptedClock('2026-03-05T12:00:00.000Z')
    issue({ site, machine: fanMachine, signer: signerOf('birk'), clock: scriptedClock(issued) })
    const onPaper = { enteredBy: person('birk'), at: sheetFrom }
    const run = startRun({ site, machine: fanMachine, mode: 'issued', by: person('odd'), clock, onPaper })
    if (!run.ok) throw new Error(JSON.stringify(run.faults))
    enterFromSheet(run.value, clock, sheetFrom)
    run.value.close()
    const { verdicts } = auditRun(readGrounds(site), run.value.file, readFileSync(run.value.file))
    return verdicts.flatMap((verdict) =>
      verdict.findings.map((one) =>
        [
          `${verdict.question} ${one.weight} ${one.id} ${one.seq}`,
          ...(one.also.length === 0 ? [] : [spansOf(one.also)])
        ].join(' and ')
      )
    )
  })
}

describe('a run entered from paper', () => {
  it('is good but for the sign-offs, whose ink is on the sheet', () => {
    expect(findingsOf('2026-03-02T09:00:00.000Z')).toEqual(['fit doubt signed-on-paper 13'])
  })

  it('was not done later than it was typed in', () => {
    const findings = findingsOf('2026-03-05T11:59:50.000Z')
    expect(findings).toEqual(['fit doubt signed-on-paper 13', 'timely fault written-ahead 2 and 3 to 27'])
  })

  it('was not done before the procedure was issued, to the minute', () => {
    expect(findingsOf('2026-03-01T07:59:00.000Z')[0]).toBe('followed fault work-before-issue 1')
    expect(findingsOf('2026-03-01T08:00:00.000Z', '2026-03-01T08:00:59.000Z')).toEqual(['fit doubt signed-on-paper 13'])
  })
})
