import { existsSync, readFileSync } from 'node:fs'
import { relative } from 'node:path'
import type { Machine } from '@lockwright/machine'
import { sha256Hex } from '../digest.js'
import type { Instruments } from '../instruments/instrument.js'
import { parseInstruments } from '../instruments/instruments-text.js'
import { readInstruments } from '../instruments/keep-instruments.js'
import { type Issue, keptMachine, parseIssue, readIssue } from '../issue.js'
import { bad, good, type RecordsFault, type RecordsResult } from '../result.js'
import { parseRoster, type Roster } from '../roster.js'
import { readRoster } from '../roster-file.js'
import { rootKeysOf } from '../roster-keys.js'
import { layout, type Site } from '../site.js'
import type { Store } from '../store/store.js'

/** What lies in the site folder besides the journals. */
export interface Grounds {
  readonly roster: RecordsResult<Roster>
  /** Null: the site keeps no list of instruments. */
  readonly instruments: RecordsResult<Instruments | null>
  /** The machine of that digest as kept here; its own bytes fit the digest. */
  machineOf(digest: string): StoredMachine
  /** What crashes left behind of a run. */
  tornOf(run: string): readonly TornFile[]
  /** A path as it is told: from the site folder. */
  shown(file: string): string
}

export interface StoredMachine {
  readonly machine: Machine | null
  /** Null where the issue signature does not hold. */
  readonly issue: Issue | null
  /** Why not. */
  readonly fault: RecordsFault | null
}

export interface TornFile {
  readonly file: string
  readonly bytes: Uint8Array
}

/** Grounds in a site folder. */
export function readGrounds(site: Site, trusted?: string): Grounds {
  const known = new Map<string, StoredMachine>()
  const roster = readRoster(site, trusted)
  return {
    roster,
    instruments: readInstruments(site, trusted),
    machineOf: (digest) => {
      const stored = known.get(digest) ?? readStored(site, digest, roster)
      known.set(digest, stored)
      return stored
    },
    tornOf: (run) => readTorn(site, run),
    shown: (file) => relative(site.folder, file)
  }
}

/** The bytes of a machine are vouched for by its digest; who released it, by the issue signature under a sound roster. */
function readStored(site: Site, digest: string, roster: RecordsResult<Roster>): StoredMachine {
  const kept = keptMachine(site, digest)
  const issue = roster.ok ? readIssue(site, digest, roster.value) : roster
  return storedOf(kept, issue)
}

function storedOf(kept: RecordsResult<Machine>, issue: RecordsResult<Issue>): StoredMachine {
  return {
    machine: kept.ok ? kept.value : null,
    issue: kept.ok && issue.ok ? issue.value : null,
    fault: kept.ok ? (issue.ok ? null : issue.faults[0]) : kept.faults[0]
  }
}

function readTorn(site: Site, run: string): readonly TornFile[] {
  const torn: TornFile[] = []
  for (let n = 1; existsSync(layout.tornLine(site, run, n)); n += 1) {
    const file = layout.tornLine(site, run, n)
    torn.push({ file, bytes: readFileSync(file) })
  }
  return torn
}

/** Grounds in any store. A machine has to be fetched before it is asked for; each is fetched once. */
export interface StoreGrounds extends Grounds {
  fetchMachine(digest: string): Promise<void>
}

export async function storeGrounds(store: Store, trusted?: string): Promise<StoreGrounds> {
  const bytes = await store.signed('people.yaml')
  const roster = bytes === null ? noRoster() : parseRoster(bytes, 'people.yaml', trusted)
  const list = await store.signed('instruments.yaml')
  const machines = new Map<string, Promise<StoredMachine>>()
  const fetched = new Map<string, StoredMachine>()
  const torn = new Map<string, TornFile[]>()
  for (const { path } of await store.documents('runs')) {
    const run = /^runs\/(.+)\.torn-\d+$/.exec(path)?.[1] ?? ''
    torn.set(run, [...(torn.get(run) ?? []), { file: path, bytes: (await store.document(path)) ?? new Uint8Array() }])
  }
  return {
    roster,
    instruments:
      list === null
        ? good(null)
        : !roster.ok
          ? roster
          : parseInstruments(list, 'instruments.yaml', rootKeysOf(roster.value)),
    machineOf: (digest) => fetched.get(digest) ?? { machine: null, issue: null, fault: null },
    fetchMachine: async (digest) => {
      const fetching = machines.get(digest) ?? fetchStored(store, digest, roster)
      machines.set(digest, fetching)
      fetched.set(digest, await fetching)
    },
    tornOf: (run) => torn.get(run) ?? [],
    shown: (file) => file
  }
}

async function fetchStored(store: Store, digest: string, roster: RecordsResult<Roster>): Promise<StoredMachine> {
  const issued = `issued/${digest}.json`
  const bytes = (await store.document(issued)) ?? (await store.document(`drafts/${digest}.json`))
  const signature = await store.document(`issued/${digest}.jws`)
  const file = `issued/${digest}.jws`
  const issue = !roster.ok
    ? roster
    : signature === null
      ? notIssued(file)
      : parseIssue(signature, file, digest, roster.value)
  return storedOf(machineIn(bytes, digest, issued), issue)
}

function machineIn(bytes: Uint8Array | null, digest: string, file: string): RecordsResult<Machine> {
  if (bytes !== null && sha256Hex(bytes) === digest) {
    try {
      return { ok: true, value: JSON.parse(Buffer.from(bytes).toString('utf8')) as Machine }
    } catch {
      // Bytes of any kind can be kept under their own digest.
    }
  }
  return bad({
    id: 'machine-altered',
    file,
    what: bytes === null ? 'The machine is not kept here.' : 'The machine is not the one whose digest is its name.',
    danger: 'Steps may be missing or changed.',
    mend: 'Compile the procedure again from the source of that revision, and compare the digests.'
  })
}

function notIssued(file: string): RecordsResult<never> {
  return bad({
    id: 'not-issued',
    file,
    what: 'No coordinator issued exactly this machine.',
    danger: 'It may be a draft that nobody has released for this equipment.',
    mend: 'Have a coordinator issue it, or step it as a draft or a rehearsal.'
  })
}

function noRoster(): RecordsResult<never> {
  return bad({
    id: 'no-roster',
    file: 'people.yaml',
    what: 'The site has no roster of people.',
    danger: 'Nobody can be told to be qualified, and no signature can be checked.',
    mend: 'Make one with `people init`, or put the site folder right.'
  })
}
