import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { type HungLock, type LockId, type Machine, type PersonId, type Snapshot, start } from '@lockwright/machine'
import { type ProvedMachine, prove } from '@lockwright/proof'
import {
  issue,
  type Run,
  type RunEvent,
  type RunId,
  resumeRun,
  type Site,
  startRun,
  type Taken
} from '@lockwright/records'
import {
  keyOf,
  person,
  type ScriptedClock,
  scriptedClock,
  signerOf,
  writeRoster
} from '../../packages/records/fixtures/plant.js'
import { publicBytesOf } from '../../packages/records/src/public-key.js'
import type { Person } from '../../packages/records/src/roster.js'
import { makeFolders } from '../../packages/records/src/site.js'
import { machineOf } from '../end-to-end/compile-text.js'
import { answersAt, chance } from '../end-to-end/walk.js'

/** One thing that happens in a run: how long it took, what was answered, and whether it is signed. */
export interface Beat {
  readonly seconds: number
  readonly event: RunEvent
  readonly signed: boolean
}

/** A run as it goes when nothing fails: `snapshots[n]` is where it stands after n entries. */
export interface Script {
  readonly machine: ProvedMachine
  readonly beats: readonly Beat[]
  readonly snapshots: readonly Snapshot[]
}

/** First light on the day of the issue; the runs begin an hour later. */
export const morning = '2026-03-02T08:00:00.000Z'
export const opener = person('runa')
const relief = person('odd')

/** A procedure of the demo library, proved. */
export function libraryMachine(name: string): ProvedMachine {
  const file = join(import.meta.dirname, '..', '..', 'procedures', name)
  const verdict = prove(machineOf(readFileSync(file, 'utf8'), file), { file })
  if (verdict.kind !== 'proved') throw new Error(`${name} is not proved`)
  return verdict.machine
}

/** A site whose roster names a coordinator and two people who may do all that the machine asks for; the machine is issued. */
export function issuedSite(folder: string, machine: ProvedMachine): Site {
  const site = makeFolders(folder)
  const held = (is: string) => ({ is, validFrom: '2026-01-01', validUntil: null })
  const able = [...new Set(machine.roles.flatMap(({ holds }) => holds))].map(held)
  const named = (id: PersonId, name: string, qualifications: Person['qualifications']): Person => ({
    id,
    name,
    key: publicBytesOf(keyOf(id)),
    revokedAt: null,
    qualifications
  })
  writeRoster(site, [
    named(person('birk'), 'Birk Amdal', [held('coordinator')]),
    named(opener, 'Runa Solvik', able),
    named(relief, 'Odd Teig', able)
  ])
  const issued = issue({ site, machine, signer: signerOf('birk'), clock: scriptedClock(morning) })
  if (!issued.ok) throw new Error(JSON.stringify(issued.faults))
  return site
}

export function begin(site: Site, machine: ProvedMachine, clock: ScriptedClock, id = 'job') {
  return startRun({ site, machine, mode: 'issued', by: opener, clock, id })
}

export function takeUp(site: Site, machine: ProvedMachine, clock: ScriptedClock, id = 'job') {
  return resumeRun({ site, run: id as RunId, machine, clock })
}

/** Hands one beat in, after its time has passed. */
export function play(run: Run, clock: ScriptedClock, { seconds, event, signed }: Beat): Taken {
  clock.pass(seconds)
  return signed ? run.sign(event, signerOf(event.by)) : run.take(event)
}

/** A run of the machine to its very end, with a second person, a handover, a pause and notes. Fails where there is none. */
export function scriptOf(site: Site, machine: ProvedMachine, seed: number): Script {
  for (let attempt = 0; attempt < 200; attempt += 1) {
    const script = attemptOf(site, machine, chance(seed + attempt), `attempt-${seed}-${attempt}`)
    if (script !== null) return script
  }
  throw new Error(`no way from seed ${seed} on comes to the end`)
}

function attemptOf(site: Site, machine: ProvedMachine, random: () => number, id: string): Script | null {
  const clock = scriptedClock('2026-03-02T09:00:00.000Z')
  const begun = begin(site, machine, clock, id)
  if (!begun.ok) throw new Error(JSON.stringify(begun.faults))
  const run = begun.value
  const beats: Beat[] = []
  const snapshots: Snapshot[] = [start(machine), run.snapshot]
  const extras = new Set<string>()
  try {
    for (let count = 0; count < 400; count += 1) {
      if (run.snapshot.status === 'finished') return { machine, beats, snapshots }
      if (run.snapshot.status === 'stopped') return null
      for (const beat of beatsAt(machine, run.snapshot, clock, random, extras)) {
        const taken = play(run, clock, beat)
        if (!taken.ok) throw new Error(`${run.snapshot.state} ${beat.event.kind}: ${JSON.stringify(taken.refusals)}`)
        beats.push(beat)
        snapshots.push(taken.snapshot)
      }
    }
    return null
  } finally {
    run.close()
  }
}

function beatsAt(
  machine: Machine,
  snapshot: Snapshot,
  clock: ScriptedClock,
  random: () => number,
  extras: Set<string>
): readonly Beat[] {
  const beat = (event: object, by: PersonId = opener, seconds = 30, signed = false): Beat => ({
    seconds,
    event: { ...event, by } as RunEvent,
    signed
  })
  const once = (name: string): boolean => !extras.has(name) && extras.add(name).has(name)
  const source = snapshot.recheck[0]
  if (source !== undefined) {
    return [beat({ kind: 'proven-again', source, value: 0, typed: '0' }, snapshot.crew[0] ?? opener)]
  }
  const locked = [...new Set(snapshot.locks.map(({ point }) => point))]
  const mine = (name: string): readonly HungLock[] =>
    locked.map((point) => ({ point, lock: `${name} ${point}` as LockId }))
  const now = clock.now().at
  const answers = answersAt(machine, snapshot, now)
  const answer = answers[Math.floor(random() * answers.length)]
  if (answer === undefined) throw new Error(`nothing can be answered at ${snapshot.state}`)
  const { at, by: _, ...event } = answer
  const working = snapshot.ledger.tried && snapshot.locks.length > 0
  if (snapshot.crew.length > 0 && once('note')) return [beat({ kind: 'note', text: 'The lamp is out \u2014 drått' })]
  if (working && snapshot.crew.includes(opener) && once('crew')) {
    return [beat({ kind: 'joined', locks: mine('blue') }, relief)]
  }
  if (Object.values(snapshot.ledger.proofs).some(Boolean) && once('pause')) {
    const by = snapshot.crew[0] ?? opener
    return [beat({ kind: 'paused', reason: 'Break' }, by), beat({ kind: 'resumed', locksOn: true }, by, 600)]
  }
  if (working && snapshot.crew.length === 2 && event.kind !== 'lock-removed' && once('left')) {
    return [beat({ kind: 'left' }, relief), beat({ kind: 'handed-over', to: relief, locks: mine('green') }, opener)]
  }
  const owner = snapshot.crew[0] ?? opener
  const by = event.kind === 'lock-removed' ? event.owner : owner
  const signed = event.kind === 'signed' || event.kind === 'finished' || event.kind === 'stopped'
  return [beat(event, by, Math.max(60, Math.ceil((Date.parse(at) - Date.parse(now)) / 1000)), signed)]
}
