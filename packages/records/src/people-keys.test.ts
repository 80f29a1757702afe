import type { KeyObject } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { fanMachine } from '../fixtures/fan-machine.js'
import {
  fanJob,
  inFolder,
  keyOf as keyOfTest,
  person,
  plantSite,
  type ScriptedClock,
  type Step,
  scriptedClock,
  walk
} from '../fixtures/plant.js'
import { gather, readGrounds } from './audit/evidence.js'
import { fit } from './audit/fit.js'
import { whole } from './audit/whole.js'
import { issue, issuedMachine } from './issue.js'
import { leastScryptCost } from './key-file.js'
import { unlockKey } from './key-store.js'
import { revokePerson, setShift } from './people.js'
import { loseKey, rotateKey, stealKey } from './people-keys.js'
import type { RecordsResult } from './result.js'
import { parseRoster } from './roster.js'
import { personOf, readRoster } from './roster-file.js'
import { keyOf, keysOf } from './roster-keys.js'
import { startRun } from './run.js'
import type { Run } from './run-types.js'
import { layout, type Site } from './site.js'

const cost = leastScryptCost

function value<Value>(result: RecordsResult<Value>): Value {
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}
const faultOf = (result: RecordsResult<unknown>): string => (result.ok ? '' : result.faults[0].id)

interface Stage {
  readonly site: Site
  readonly clock: ScriptedClock
  readonly ask: { site: Site; root: KeyObject; clock: ScriptedClock; cost: number; id: string; passphrase: string }
  readonly keysNow: () => readonly string[]
}

/** The plant, whose keys lie elsewhere. `ask` is about Runa, who is qualified; Birk issues, Odd and Liv hold nothing. */
function withSite(body: (stage: Stage) => void): void {
  inFolder((folder) => {
    const clock = scriptedClock('2026-03-01T08:00:00.000Z')
    const site = plantSite(folder)
    body({
      site,
      clock,
      ask: { site, root: keyOfTest('root'), clock, cost, id: 'runa', passphrase: 'new words of runa' },
      keysNow: () => {
        const runa = personOf(value(readRoster(site)), 'runa')
        return runa === null ? [] : keysOf(runa).map(({ from, until, because }) => `${from} ${until} ${because}`)
      }
    })
  })
}

const signing = fanJob.findIndex(({ event }) => event.kind === 'signed')

/** A run up to Runa's sign-off, which `key` then signs. */
function signedRun({ site, clock }: Stage, id: string, key: KeyObject): { readonly why: string } {
  const birk = { person: person('birk'), key: keyOfTest('birk') }
  value(issue({ site, machine: fanMachine, signer: birk, clock }))
  const run = value(startRun({ site, machine: fanMachine, mode: 'issued', by: person('odd'), clock, id }))
  // Each run is left open with its locks on, so each has padlocks of its own.
  const steps = JSON.stringify(fanJob.slice(0, signing)).replaceAll(/"lock":"(\d+)"/g, `"lock":"${id} $1"`)
  walk(run, clock, JSON.parse(steps) as readonly Step[])
  const event = { ...fanJob[signing]?.event, by: person('runa') } as Parameters<Run['take']>[0]
  const taken = run.sign(event, { person: person('runa'), key })
  run.close()
  return { why: taken.ok ? '' : taken.refusals[0].why }
}

/** What the audit says of keys in a run; `provenBy`: as an auditor with a kept checkpoint knows. */
function told(site: Site, id: string, provenBy: string | null = null): readonly string[] {
  const file = layout.journal(site, id)
  const evidence = { ...gather(readGrounds(site), file, readFileSync(file)), provenBy }
  return [...whole(evidence).found, ...fit(evidence).found]
    .filter((found) => /key|signature/.test(found.id))
    .map(({ weight, id: what, seq }) => `${weight} ${what} ${seq}`)
}
const signedSeq = signing + 2

describe('a key that is exchanged in good order', () => {
  it('signs until then, the new one from then on, and what each signed stays good', () => {
    withSite((stage) => {
      const { site, clock, ask, keysNow } = stage
      const old = keyOfTest('runa')
      expect(signedRun(stage, 'before', old).why).toBe('')
      clock.pass(1)
      const { at } = clock.now()
      value(rotateKey(ask))
      expect(keysNow()).toEqual([`null ${at} rotated`, `${at} null null`])
      const fresh = value(unlockKey(site, 'runa', 'new words of runa'))
      expect(signedRun(stage, 'old-key', old).why).toContain('was exchanged for another, and signs nothing from')
      expect(signedRun(stage, 'after', fresh).why).toBe('')
      expect(told(site, 'before')).toEqual([])
      expect(told(site, 'after')).toEqual([])
    })
  })

  it('is found where it signed after that, and where the new one signed before', () => {
    withSite((stage) => {
      const { site, clock, ask } = stage
      const old = keyOfTest('runa')
      signedRun(stage, 'run', old)
      clock.setWall(-86_400)
      value(rotateKey(ask))
      expect(told(site, 'run')).toEqual([`fault key-ended ${signedSeq}`])
      const fresh = value(unlockKey(site, 'runa', 'new words of runa'))
      clock.setWall(-3600)
      expect(signedRun(stage, 'early', fresh).why).toContain('is not in force yet')
    })
  })

  it('can be a first one, and each after the other', () => {
    withSite(({ site, clock, ask, keysNow }) => {
      expect(faultOf(loseKey({ ...ask, id: 'liv' }))).toBe('no-key-to-end')
      expect(faultOf(stealKey({ ...ask, id: 'liv', since: '2026-02-28T00:00:00Z' }))).toBe('no-key-to-end')
      value(rotateKey({ ...ask, id: 'liv' }))
      expect(unlockKey(site, 'liv', 'new words of runa').ok).toBe(true)
      for (const words of ['the second words', 'the third words']) {
        clock.pass(60)
        value(rotateKey({ ...ask, passphrase: words }))
      }
      expect(keysNow().length).toBe(3)
      const runa = personOf(value(readRoster(site)), 'runa')
      if (runa === null) return expect.fail('gone')
      // At each instant there is exactly one.
      const ends = keysOf(runa).flatMap(({ until }) => (until === null ? [] : [until]))
      expect(ends.map((end) => keyOf(runa, end)?.key)).toEqual(
        keysOf(runa)
          .slice(1)
          .map(({ key }) => key)
      )
      expect(faultOf(rotateKey({ ...ask, passphrase: 'short' }))).toBe('passphrase-short')
      expect(faultOf(rotateKey({ ...ask, id: 'nobody' }))).toBe('no-such-person')
    })
  })

  it('lets the machines stand that its owner issued before', () => {
    withSite((stage) => {
      const { site, clock, ask } = stage
      const old = { person: person('birk'), key: keyOfTest('birk') }
      const issued = value(issue({ site, machine: fanMachine, signer: old, clock }))
      clock.pass(1)
      value(rotateKey({ ...ask, id: 'birk', passphrase: 'new words of birk' }))
      expect(issuedMachine(site, issued.machine).ok).toBe(true)
      const later = { ...fanMachine, revision: 3 } as typeof fanMachine
      clock.pass(60)
      expect(faultOf(issue({ site, machine: later, signer: old, clock }))).toBe('not-entitled')
      const fresh = { ...old, key: value(unlockKey(site, 'birk', 'new words of birk')) }
      expect(issue({ site, machine: later, signer: fresh, clock }).ok).toBe(true)
    })
  })
})

describe('a key that is lost, or whose owner left', () => {
  it('ends now, and what it signed stays good', () => {
    withSite((stage) => {
      const { site, ask, keysNow, clock } = stage
      signedRun(stage, 'before', keyOfTest('runa'))
      clock.pass(1)
      value(loseKey(ask))
      expect(keysNow().map((one) => one.split(' ')[2])).toEqual(['lost', 'null'])
      expect(told(site, 'before')).toEqual([])
      clock.pass(60)
      value(revokePerson({ ...ask, from: clock.now().at, because: 'left' }))
      expect(keysNow().map((one) => one.split(' ')[2])).toEqual(['lost', 'left'])
      expect(signedRun(stage, 'after', value(unlockKey(site, 'runa', 'new words of runa'))).why).toContain('owner left')
      // Back again, with a key of her own.
      value(rotateKey({ ...ask, passphrase: 'once more runa' }))
      expect(keysNow().map((one) => one.split(' ')[2])).toEqual(['lost', 'left', 'null'])
    })
  })

  it('is not followed by another where none is wanted', () => {
    withSite((stage) => {
      value(loseKey({ ...stage.ask, passphrase: null }))
      expect(stage.keysNow().map((one) => one.split(' ')[2])).toEqual(['lost'])
    })
  })
})

describe('a key that was stolen', () => {
  it('makes nothing count that it signed since, and what is dated before only as far as someone outside knows', () => {
    withSite((stage) => {
      const { site, clock, ask } = stage
      const old = keyOfTest('runa')
      signedRun(stage, 'before', old)
      clock.pass(3600)
      const since = clock.now().at
      clock.pass(3600)
      signedRun(stage, 'after', old)
      expect([...told(site, 'before'), ...told(site, 'after')]).toEqual([])
      value(stealKey({ ...ask, since }))
      expect(told(site, 'after')).toEqual([`fault signature-bad ${signedSeq}`, `fault key-stolen ${signedSeq}`])
      expect(told(site, 'before')).toEqual([`doubt key-stolen-later ${signedSeq}`])
      const minute = (by: number) => new Date(Date.parse(since) + by * 60_000).toISOString()
      expect(told(site, 'before', minute(-1))).toEqual([])
      expect(told(site, 'before', minute(0))).toEqual([`doubt key-stolen-later ${signedSeq}`])
      expect(told(site, 'after', minute(-1))).toContain(`fault key-stolen ${signedSeq}`)
    })
  })

  it('takes with it the keys that were made since, and leaves those that had ended before', () => {
    withSite(({ clock, ask, keysNow }) => {
      const began = clock.now().at
      clock.pass(60)
      value(rotateKey(ask))
      const second = clock.now().at
      clock.pass(60)
      const since = clock.now().at
      clock.pass(60)
      value(rotateKey(ask))
      const third = clock.now().at
      clock.pass(60)
      value(stealKey({ ...ask, since }))
      const now = clock.now().at
      expect(keysNow()).toEqual([
        `null ${second} rotated`,
        `${second} ${since} stolen`,
        `${third} ${third} stolen`,
        `${now} null null`
      ])
      // An earlier theft found later goes further back.
      value(stealKey({ ...ask, since: began }))
      expect(keysNow()[0]).toBe(`null ${began} stolen`)
      expect(faultOf(stealKey({ ...ask, since: '2099-01-01T00:00:00Z' }))).toBe('theft-not-yet')
      expect(faultOf(stealKey({ ...ask, since: 'yesterday' }))).toBe('theft-not-yet')
    })
  })

  it('makes a machine doubted that was issued with it', () => {
    withSite((stage) => {
      const { site, clock, ask } = stage
      signedRun(stage, 'run', keyOfTest('runa'))
      clock.pass(60)
      value(stealKey({ ...ask, id: 'birk', since: clock.now().at }))
      expect(told(site, 'run')).toEqual(['doubt issue-key-stolen 1'])
    })
  })
})

describe('a roster of format 2', () => {
  it('is written only where format 1 cannot say it, and is found changed at any byte', () => {
    withSite(({ site, clock, ask }) => {
      const file = layout.people(site)
      expect(readFileSync(file, 'utf8')).toContain('lockwright-roster: 1\n')
      value(setShift({ ...ask, hours: 8 }))
      expect(readFileSync(file, 'utf8')).toContain('lockwright-roster: 2\n')
      expect(['0', '-1', '49', 'x'].map((hours) => faultOf(setShift({ ...ask, hours: Number(hours) })))).toEqual(
        Array(4).fill('not-a-shift')
      )
      clock.pass(60)
      value(rotateKey(ask))
      const bytes = readFileSync(file)
      expect(value(parseRoster(bytes, file))).toMatchObject({ shiftHours: 8, serial: 3 })
      const unfound: number[] = []
      for (const [position, byte] of bytes.entries()) {
        const changed = Uint8Array.from(bytes)
        changed[position] = byte ^ 1
        if (parseRoster(changed, file).ok) unfound.push(position)
      }
      expect(unfound).toEqual([])
    })
  })
})
