import { generateKeyPairSync, type KeyObject } from 'node:crypto'
import type { PersonId, StateId } from '@lockwright/machine'
import { canonicalJson } from '../../canonical-json.js'
import { sha256Hex } from '../../digest.js'
import type { BareEvent, Entry, RunId } from '../../entry.js'
import { formatLeaf } from '../../log/leaf.js'
import { publicBytesOf } from '../../public-key.js'
import { formatRoster } from '../../roster.js'

/** Names of an invented plant. */
export const runOf = (name: string): RunId => name as RunId
const person = (id: string): PersonId => id as PersonId
const state = 'tell' as StateId

/** An event as data, and who answers for it where that is somebody else than the opener. */
export interface SampleEvent {
  readonly kind: string
  readonly by?: string
  /** Bears the signature note of that person. */
  readonly signedBy?: string
  readonly [member: string]: unknown
}

export interface SampleRun {
  readonly run?: string
  readonly procedure?: string
  readonly equipment?: string
  readonly by?: string
  readonly mode?: 'issued' | 'draft' | 'rehearsal'
  /** Serial number of the sheet that it was entered from. */
  readonly sheet?: string
  /** RFC 3339; each entry is a minute after the one before. */
  readonly openedAt?: string
  readonly events?: readonly SampleEvent[]
}

/** Lines of a journal: the opening and these events, chained as a runner chains them. No machine stands behind it. */
export function sampleLines(sample: SampleRun = {}): readonly string[] {
  const { run = 'pump', by = 'odd', openedAt = '2026-03-02T09:00:00.000Z', events = [] } = sample
  const machine = sha256Hex(`machine of ${sample.procedure ?? 'F12-BEARING'}`)
  const paper = sample.sheet === undefined ? {} : { onPaper: { enteredBy: 'liv', sheet: sample.sheet } }
  let prev = machine
  const all: readonly SampleEvent[] = [{ kind: 'opened', mode: sample.mode ?? 'issued', ...paper }, ...events]
  return all.map((one, index) => {
    const { by: who = by, signedBy, ...event } = one
    const at = new Date(Date.parse(openedAt) + index * 60_000).toISOString()
    const entry: Entry = {
      run: runOf(run),
      seq: index + 1,
      prev,
      at,
      elapsed: index * 60_000,
      session: 1,
      by: person(who),
      state,
      event: event as unknown as BareEvent,
      ...(index === 0
        ? {
            opens: {
              format: 'lockwright-journal/1',
              machine,
              procedure: sample.procedure ?? 'F12-BEARING',
              revision: 2,
              equipment: sample.equipment ?? 'F-12'
            }
          }
        : {}),
      ...(signedBy === undefined
        ? {}
        : { signature: { by: person(signedBy), name: 'Runa Solvik', at, meaning: 'Checked' }, jws: 'not.looked.at' })
    }
    const line = canonicalJson(entry)
    prev = sha256Hex(line)
    return line
  })
}

type Locks = readonly (readonly [point: string, lock: string])[]
const locksOf = (locks: Locks) => locks.map(([point, lock]) => ({ point, lock }))
const answers = (by: string | undefined) => (by === undefined ? {} : { by })

export const note = (text: string, by?: string): SampleEvent => ({ kind: 'note', text, ...answers(by) })
export const hung = (point: string, lock: string, by?: string): SampleEvent => ({
  kind: 'lock-hung',
  state,
  point,
  lock,
  ...answers(by)
})
export const removed = (point: string, owner: string): SampleEvent => ({ kind: 'lock-removed', state, point, owner })
export const joined = (by: string, ...locks: Locks): SampleEvent => ({ kind: 'joined', by, locks: locksOf(locks) })
export const handedOver = (by: string, to: string, ...locks: Locks): SampleEvent => ({
  kind: 'handed-over',
  by,
  to,
  locks: locksOf(locks)
})
export const left = (by: string): SampleEvent => ({ kind: 'left', by })
export const finished: SampleEvent = { kind: 'finished', state, acknowledged: [], boxes: [] }
export const stopped: SampleEvent = { kind: 'stopped', reason: 'No spare bearing in the store' }
export const paused: SampleEvent = { kind: 'paused', reason: 'End of the shift' }
export const resumed: SampleEvent = { kind: 'resumed', locksOn: true }

/** Bytes of the file that holds these lines. */
export function fileOf(lines: readonly string[]): Buffer {
  return Buffer.from(lines.map((line) => `${line}\n`).join(''))
}

/** The leaf that stands for a closed run of these lines. */
export function sampleLeaf(lines: readonly string[], more: { readonly status?: 'stopped' | 'finished' } = {}): string {
  const [first, last] = [lines[0], lines.at(-1)].map((line) => JSON.parse(line ?? '') as Entry)
  if (first?.opens === undefined || last === undefined) throw new Error('no opening')
  const { machine, procedure, revision, equipment } = first.opens
  return formatLeaf({
    format: 'lockwright-leaf/1',
    run: first.run,
    head: sha256Hex(lines.at(-1) ?? ''),
    entries: lines.length,
    machine,
    procedure,
    revision,
    equipment,
    mode: 'issued',
    status: more.status ?? 'finished',
    closedAt: last.at,
    locks: []
  })
}

export function newRoot(): KeyObject {
  return generateKeyPairSync('ed25519').privateKey
}

/** A signed roster of that number; `site` makes two of one number differ. */
export function sampleRoster(root: KeyObject, serial: number, site = 'Sandholm waterworks'): Buffer {
  const signedAt = '2026-02-01T07:00:00.000Z'
  return Buffer.from(formatRoster({ site, serial, signedAt, root: publicBytesOf(root), people: [] }, root))
}
