import { parseQuantity } from '@lockwright/energy'
import type { PersonId } from '@lockwright/machine'
import {
  addInstrument,
  audit,
  folderStore,
  type Instrument,
  issue,
  type Run,
  readRating,
  resumeRun,
  type Site,
  siteRoot,
  startRun,
  unlockKey
} from '@lockwright/records'
import { describe, expect, it } from 'vitest'
import { stepSession } from '../../packages/cli/src/commands/step-session.js'
import { standingClock } from '../../packages/runner-terminal/fixtures/memory-run.js'
import { stepLines } from '../../packages/runner-terminal/fixtures/plain-run.js'
import { inPlant, made, passphrase, signerOf } from '../../packages/runner-terminal/fixtures/plant-site.js'
import { pumpLines } from '../../packages/runner-terminal/fixtures/pump-lines.js'
import { pumpMachine } from '../../packages/runner-terminal/fixtures/pump-machine.js'
import { firstView, type Pressed, press } from '../../packages/runner-terminal/src/full-screen/press.js'
import { openSession, type SessionOptions } from '../../packages/runner-terminal/src/session/session.js'

type StandingClock = ReturnType<typeof standingClock>

const person = (id: string): PersonId => id as PersonId
const people = { vega: ['electrical-lv'], mira: ['electrical-lv'], tor: [], lind: ['coordinator'] }

/** How lines reach a session: typed into the plain shell, or as keys into the whole screen, paged to its end first. */
const shells = {
  plain: async (run: Run, options: SessionOptions, clock: StandingClock, lines: readonly string[]) =>
    (await stepLines(lines, { run, clock, ...options })).out.join('\n'),
  screen: async (run: Run, options: SessionOptions, clock: StandingClock, lines: readonly string[]) => {
    const session = openSession(run, options)
    const size = { columns: 40, rows: 19 }
    const said: string[] = []
    let now: Pressed = { view: firstView, ended: null }
    for (const line of lines) {
      clock.pass(10)
      for (let pages = 0; pages < 20; pages++) now = press(session, now.view, { kind: 'page-down' }, size)
      now = press(session, now.view, { kind: 'text', text: line }, size)
      if (line.length > 1 || now.view.line !== '' || line === '')
        now = press(session, now.view, { kind: 'enter' }, size)
      said.push(...now.view.said, session.screen().question, ...session.screen().warnings)
      const due = session.asked().kind === 'waiting' ? session.due() : null
      if (due !== null && line !== lines.at(-1)) clock.set(due)
      said.push(...session.passTime().said)
    }
    return said.join('\n')
  }
}

const volts = (id: string, until: string): Instrument => ({
  id,
  serial: `SN-${id}`,
  name: 'Two-pole voltage tester',
  measures: 'voltage',
  ratings: [read(readRating('CAT IV 1000 V'))],
  range: null,
  accuracy: null,
  calibrations: [{ from: '2025-01-10', until, certificate: 'K-118' }],
  withdrawn: null
})

const gauge: Instrument = {
  ...volts('G1', '2027-01-09'),
  name: 'Pressure gauge',
  measures: 'pressure',
  ratings: [],
  range: { low: quantity('0 bar'), high: quantity('10 bar') }
}

function read<Value>(result: { readonly ok: true; readonly value: Value } | { readonly ok: false }): Value {
  if (!result.ok) throw new Error(JSON.stringify(result))
  return result.value
}

function quantity(written: string) {
  return read(parseQuantity(written))
}

const from = (first: string, last: string): readonly string[] =>
  pumpLines.slice(pumpLines.indexOf(first), pumpLines.indexOf(last))

/** The whole job in an issued run: a crash in the wait, a pause, a handover, a lock whose owner is away. */
async function wholeJob(shell: keyof typeof shells) {
  const clock = standingClock()
  const records = { now: () => ({ at: clock.now(), elapsed: Date.parse(clock.now()) }) }
  const told: Record<string, string> = {}
  let verdicts: readonly string[] = []
  let kinds: readonly string[] = []
  await inPlant(people, records, async (site) => {
    const root = made(unlockKey(site, siteRoot, passphrase))
    for (const instrument of [volts('T1', '2027-01-09'), volts('T9', '2026-01-09'), gauge])
      made(addInstrument({ site, root, clock: records, instrument }))
    made(issue({ site, machine: pumpMachine, signer: signerOf(site, 'lind'), clock: records }))
    const begun = made(
      startRun({ site, machine: pumpMachine, mode: 'issued', by: person('vega'), clock: records, id: 'pump' })
    )
    const stage = async (name: string, by: string, lines: readonly string[]): Promise<void> => {
      const run = name === 'begin' ? begun : resumed(site)
      const takenUp = name !== 'begin'
      const session = stepSession({ site, run, person: person(by), now: clock.now, takenUp, scripted: false })
      const elapsed = () => Date.parse(clock.now())
      told[name] = await shells[shell](run, { ...session, elapsed }, clock, lines)
      kinds = run.entries.map(({ event }) => event.kind)
      run.close()
    }
    const resumed = (at: Site): Run =>
      made(resumeRun({ site: at, run: begun.id, machine: pumpMachine, clock: records }))
    await stage('begin', 'vega', [...pumpLines.slice(0, pumpLines.indexOf('start')), 'start'])
    clock.pass(120)
    await stage('after the crash', 'vega', ['note the lid was shut', 'locks on', 'read', ...from('released', 'sign')])
    clock.pass(11 * 3600)
    await stage('another shift', 'vega', [
      'locks on',
      'as vega',
      passphrase,
      'handover mira',
      '41',
      '42',
      passphrase,
      'sign',
      passphrase
    ])
    await stage('proving', 'mira', [
      'locks on',
      '1',
      '2',
      'T9',
      'T1',
      '0 V',
      '0,4 V',
      '0 V',
      '3 V',
      '2V',
      '1,480 V',
      '0.012 kV',
      '3',
      'G1',
      '0.0 bar',
      'proven',
      'pause lunch'
    ])
    clock.pass(3600)
    await stage('after the pause', 'mira', [
      'locks on',
      'T9',
      'T1',
      '0 V',
      '0 V',
      'G1',
      '0 bar',
      '1',
      'done',
      '1 2',
      'inspected'
    ])
    await stage('away', 'tor', [
      'locks on',
      'clear',
      'absent',
      'tor',
      'the gate log shows her out',
      'called twice',
      'a note at the gate',
      'lind',
      'absent',
      'lind',
      'the gate log',
      'called',
      'a note',
      'unlocked',
      'told',
      'energized',
      '4,2 bar',
      'measured',
      'finished',
      passphrase
    ])
    const report = await audit({ store: folderStore(site), clock: records })
    verdicts = (report.runs[0]?.verdicts ?? []).map(
      ({ question, answer, findings }) => `${question} ${answer} ${findings.map(({ id }) => id).join(' ')}`
    )
  })
  return { told, verdicts, kinds }
}

describe('an issued run with instruments, a crew and breaks', () => {
  it.each(['plain', 'screen'] as const)(
    'comes to its end on the %s shell, and the audit finds it good',
    async (shell) => {
      const { told, verdicts, kinds } = await wholeJob(shell)
      expect(told['after the crash']).toContain('Do they all hang?')
      expect(told['another shift']).toContain('mira answers from now on.')
      expect(told['proving']).toContain('`T9` is no instrument of this site that fits here')
      expect(told['proving']).toContain('`1,480` can be read as 1480 or as 1.480')
      expect(told['after the pause']).toContain('Prove again that mains is dead')
      expect(told['after the pause']).toContain('`T9` is no instrument of this site that fits here')
      expect(told['away']).toContain('Have someone direct it who holds `coordinator`')
      expect(told['away']).toMatch(/Finished: the equipment is returned to service\.|The run is finished\./)
      expect(kinds.filter((kind) => kind === 'resumed')).toHaveLength(5)
      expect(kinds.filter((kind) => kind === 'proven-again')).toHaveLength(3)
      expect(verdicts.slice(0, 4)).toEqual(['whole good ', 'followed good ', 'fit good ', 'timely good '])
    }
  )
})
