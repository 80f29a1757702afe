import type { PersonId } from '@lockwright/machine'
import { audit, folderStore, issue, startRun, unlockKey } from '@lockwright/records'
import { describe, expect, it } from 'vitest'
import { stepLines } from '../../fixtures/plain-run.js'
import { inPlant, made, passphrase, signerOf } from '../../fixtures/plant-site.js'
import { pumpLines } from '../../fixtures/pump-lines.js'
import { pumpMachine } from '../../fixtures/pump-machine.js'
import type { KeyRing } from '../run-port.js'
import { scriptedClock } from './scripted-clock.js'

const vega = 'vega' as PersonId
const start = '2026-03-02T07:00:00.000Z'
const people = { vega: ['electrical-lv'], lind: ['coordinator'] }

/** An issued run on real files, its lines typed a minute apart, its keys those of the site; and what the audit says of it. */
async function audited(lines: readonly string[], has: boolean) {
  const clock = scriptedClock(start)
  let answers: readonly string[] = []
  await inPlant(people, clock, async (site) => {
    made(issue({ site, machine: pumpMachine, signer: signerOf(site, 'lind'), clock }))
    const run = made(startRun({ site, machine: pumpMachine, mode: 'issued', by: vega, clock }))
    const keys: KeyRing = {
      has: () => has,
      open: (person, typed) => {
        const key = unlockKey(site, person, typed)
        return key.ok ? { ok: true, signer: { person, key: key.value } } : { ok: false, why: 'wrong', mend: '' }
      }
    }
    const now = () => clock.now().at
    const set = (at: string) => void clock.set(at)
    const pass = (seconds: number) => set(new Date(Date.parse(now()) + seconds * 6000).toISOString())
    const { ended } = await stepLines(lines, { run, keys, person: vega, clock: { now, set, pass } })
    run.close()
    expect(ended).toBe('finished')
    const [found] = (await audit({ store: folderStore(site), clock })).runs
    answers = (found?.verdicts ?? []).map(
      ({ question, answer, findings }) => `${question} ${answer} ${findings.map(({ id }) => id).join(' ')}`
    )
  })
  return answers
}

const signed = pumpLines.flatMap((line) => (line === 'sign' ? [line, passphrase] : [line]))

describe('an issued run that was stepped with keys', () => {
  it('is whole for the audit: whoever finished it signed over its last entry', async () => {
    expect((await audited([...signed, passphrase], true))[0]).toBe('whole good ')
  })

  it('is not known to be whole where nobody signed its end, and the audit says so', async () => {
    expect((await audited(signed, false))[0]).toBe('whole cannot-tell unsigned-end')
  })
})
