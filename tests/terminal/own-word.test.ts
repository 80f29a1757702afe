import type { PersonId } from '@lockwright/machine'
import { audit, folderStore, issue, startRun } from '@lockwright/records'
import { expect, it } from 'vitest'
import { stepSession } from '../../packages/cli/src/commands/step-session.js'
import { standingClock } from '../../packages/runner-terminal/fixtures/memory-run.js'
import { stepLines } from '../../packages/runner-terminal/fixtures/plain-run.js'
import { inPlant, made, passphrase, signerOf } from '../../packages/runner-terminal/fixtures/plant-site.js'
import { pumpLines } from '../../packages/runner-terminal/fixtures/pump-lines.js'
import { pumpMachine } from '../../packages/runner-terminal/fixtures/pump-machine.js'

const people = { vega: ['electrical-lv'], tor: ['electrical-lv'], lind: ['coordinator'] }

/** The seal job with tor on the crew, whose word is given where it is asked for. */
const lines = pumpLines.flatMap((line, index) => {
  const before = pumpLines[index - 1]
  if (line === 'locked') return ['locked', 'join tor Q1=31 V1=32', passphrase]
  if (line === 'sign' || line === 'finished') return [line, passphrase]
  if (line === '18' && before === 'clear') return ['18', 'left tor', '32', 'not the passphrase', passphrase]
  if (line === '17' && before === '18') return ['17', 'as tor', passphrase, '31', 'as vega', passphrase]
  return [line]
})

it('signs what each of the crew says of themselves, and an audit finds the run good', async () => {
  const clock = standingClock()
  const records = { now: () => ({ at: clock.now(), elapsed: Date.parse(clock.now()) }) }
  await inPlant(people, records, async (site) => {
    made(issue({ site, machine: pumpMachine, signer: signerOf(site, 'lind'), clock: records }))
    const run = made(startRun({ site, machine: pumpMachine, mode: 'issued', by: 'vega' as PersonId, clock: records }))
    const elapsed = () => Date.parse(clock.now())
    const given = { site, run, person: 'vega' as PersonId, now: clock.now, takenUp: false, scripted: false }
    const { out, ended } = await stepLines(lines, { run, clock, ...stepSession(given), elapsed })
    run.close()
    expect(out.join('\n')).toContain('Nobody else takes the locks of `tor` off the record.')
    expect(out.join('\n')).not.toContain(passphrase)
    expect(ended).toBe('finished')
    const signed = run.entries.filter(({ signature }) => signature !== undefined && signature !== null)
    expect(signed.map(({ by, event }) => `${by} ${event.kind}`)).toEqual([
      'tor joined',
      'vega signed',
      'tor lock-removed',
      'tor note',
      'vega note',
      'vega finished'
    ])
    const report = await audit({ store: folderStore(site), clock: records })
    const verdicts = (report.runs[0]?.verdicts ?? []).map(({ question, answer }) => `${question} ${answer}`)
    expect(verdicts).toEqual(expect.arrayContaining(['whole good', 'followed good']))
  })
})
