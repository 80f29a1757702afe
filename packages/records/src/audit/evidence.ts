import { existsSync, readFileSync } from 'node:fs'
import { basename } from 'node:path'
import type { Machine } from '@lockwright/machine'
import { type JournalReading, readChain } from '../chain.js'
import type { Entry } from '../entry.js'
import { type Issue, keptMachine, readIssue } from '../issue.js'
import { summarize } from '../list-runs.js'
import { type Replay, replay } from '../replay.js'
import type { RecordsFault, RecordsResult } from '../result.js'
import type { Roster } from '../roster.js'
import { readRoster } from '../roster-file.js'
import type { RunSummary } from '../run-types.js'
import { layout, type Site } from '../site.js'
import { type CheckedSignature, checkSignatures } from './signatures.js'

/** What lies in the site folder besides the journals. */
export interface Grounds {
  readonly site: Site
  readonly roster: RecordsResult<Roster>
  /** The machine of that digest as kept here; its own bytes fit the digest. */
  machineOf(digest: string): StoredMachine
}

export interface StoredMachine {
  readonly machine: Machine | null
  /** Null where the issue signature does not hold. */
  readonly issue: Issue | null
  /** Why not. */
  readonly fault: RecordsFault | null
}

/** Everything there is on one run, read once. */
export interface Evidence extends StoredMachine {
  readonly file: string
  readonly reading: JournalReading
  /** The entries up to the first line that is none. */
  readonly entries: readonly Entry[]
  readonly summary: RunSummary | null
  readonly roster: Roster | null
  readonly rosterFault: RecordsFault | null
  readonly signatures: ReadonlyMap<number, CheckedSignature>
  /** Null where there is no machine to replay on, or where what is kept as one cannot be stepped. */
  readonly replay: Replay | null
  readonly tornFiles: readonly { readonly file: string; readonly bytes: Uint8Array }[]
}

export function readGrounds(site: Site, trusted?: string): Grounds {
  const known = new Map<string, StoredMachine>()
  const roster = readRoster(site, trusted)
  return {
    site,
    roster,
    machineOf: (digest) => {
      const stored = known.get(digest) ?? readStored(site, digest, roster)
      known.set(digest, stored)
      return stored
    }
  }
}

/** The bytes of a machine are vouched for by its digest; who released it, by the issue signature under a sound roster. */
function readStored(site: Site, digest: string, roster: RecordsResult<Roster>): StoredMachine {
  const kept = keptMachine(site, digest)
  const issue = roster.ok ? readIssue(site, digest, roster.value) : roster
  return {
    machine: kept.ok ? kept.value : null,
    issue: kept.ok && issue.ok ? issue.value : null,
    fault: kept.ok ? (issue.ok ? null : issue.faults[0]) : kept.faults[0]
  }
}

/** Reads one journal; `bytes` are its content. */
export function gather(grounds: Grounds, file: string, bytes: Uint8Array): Evidence {
  const reading = readChain(bytes, file, basename(file, '.jsonl'))
  const end = reading.lines.findIndex((line) => line.entry === null)
  const readable = end === -1 ? reading.lines : reading.lines.slice(0, end)
  const entries = readable.flatMap((line) => (line.entry === null ? [] : [line.entry]))
  const digest = entries[0]?.opens?.machine
  const stored = digest === undefined ? noMachine : grounds.machineOf(digest)
  const roster = grounds.roster.ok ? grounds.roster.value : null
  let replayed: { readonly value: Replay | null } | null = null
  return {
    ...stored,
    file,
    reading,
    entries,
    summary: summarize(reading, file),
    roster,
    rosterFault: grounds.roster.ok ? null : grounds.roster.faults[0],
    signatures: checkSignatures(reading, roster),
    get replay() {
      // The dearest part; a reader who only asks whether the file is whole does without.
      replayed ??= { value: stored.machine === null ? null : tryReplay(stored.machine, entries) }
      return replayed.value
    },
    tornFiles: readTorn(grounds.site, basename(file, '.jsonl'))
  }
}

const noMachine: StoredMachine = { machine: null, issue: null, fault: null }

function tryReplay(machine: Machine, entries: readonly Entry[]): Replay | null {
  try {
    return replay(machine, entries)
  } catch {
    // A draft machine is vouched for by nobody: it may be no machine at all.
    return null
  }
}

function readTorn(site: Site, run: string): Evidence['tornFiles'] {
  const torn: { file: string; bytes: Uint8Array }[] = []
  for (let n = 1; existsSync(layout.tornLine(site, run, n)); n += 1) {
    const file = layout.tornLine(site, run, n)
    torn.push({ file, bytes: readFileSync(file) })
  }
  return torn
}
