import { basename } from 'node:path'
import type { Machine } from '@lockwright/machine'
import { type JournalReading, readChain } from '../chain.js'
import type { Entry } from '../entry.js'
import type { Instruments } from '../instruments/instrument.js'
import { summarize } from '../list-runs.js'
import { type Replay, replay } from '../replay.js'
import type { RecordsFault, RecordsResult } from '../result.js'
import type { Roster } from '../roster.js'
import type { RunSummary } from '../run-types.js'
import type { Grounds, StoredMachine, TornFile } from './grounds.js'
import { type CheckedSignatures, checkSignatures } from './signatures.js'

export { type Grounds, readGrounds, type StoredMachine } from './grounds.js'

/** Everything there is on one run, read once. */
export interface Evidence extends StoredMachine {
  readonly file: string
  readonly reading: JournalReading
  /** The entries up to the first line that is none. */
  readonly entries: readonly Entry[]
  readonly summary: RunSummary | null
  readonly roster: Roster | null
  readonly rosterFault: RecordsFault | null
  /** Null: the site keeps no list of instruments. */
  readonly instruments: RecordsResult<Instruments | null>
  readonly signatures: CheckedSignatures
  /**
   * RFC 3339: a time by which, as someone outside knows, the record stood as it stands now: the day on which a
   * checkpoint of the site log was kept that covers it. Absent or null: nobody says.
   */
  readonly provenBy?: string | null
  /** Null where there is no machine to replay on, or where what is kept as one cannot be stepped. */
  readonly replay: Replay | null
  readonly tornFiles: readonly TornFile[]
}

/** A journal that was read and not yet judged. */
export interface ReadJournal {
  readonly file: string
  readonly reading: JournalReading
  readonly entries: readonly Entry[]
  readonly summary: RunSummary | null
  /** Digest of its machine; null: no opening can be read. */
  readonly digest: string | null
}

export function readJournal(file: string, bytes: Uint8Array): ReadJournal {
  const reading = readChain(bytes, file, basename(file, '.jsonl'))
  const end = reading.lines.findIndex((line) => line.entry === null)
  const readable = end === -1 ? reading.lines : reading.lines.slice(0, end)
  const entries = readable.flatMap((line) => (line.entry === null ? [] : [line.entry]))
  return { file, reading, entries, summary: summarize(reading, file), digest: entries[0]?.opens?.machine ?? null }
}

/** Reads one journal; `bytes` are its content. */
export function gather(grounds: Grounds, file: string, bytes: Uint8Array): Evidence {
  const journal = readJournal(file, bytes)
  return evidenceOf(grounds, journal, checkSignatures(journal.reading, rosterIn(grounds)))
}

export function rosterIn({ roster }: Grounds): Roster | null {
  return roster.ok ? roster.value : null
}

/** What was read of a journal, put beside the grounds on which it is judged. */
export function evidenceOf(
  grounds: Grounds,
  journal: ReadJournal,
  signatures: CheckedSignatures,
  provenBy: string | null = null
): Evidence {
  const { file, reading, entries, summary, digest } = journal
  const stored = digest === null ? noMachine : grounds.machineOf(digest)
  let replayed: { readonly value: Replay | null } | null = null
  return {
    ...stored,
    file,
    reading,
    entries,
    summary,
    roster: rosterIn(grounds),
    rosterFault: grounds.roster.ok ? null : grounds.roster.faults[0],
    instruments: grounds.instruments,
    signatures,
    provenBy,
    get replay() {
      // The dearest part; a reader who only asks whether the file is whole does without.
      replayed ??= { value: stored.machine === null ? null : tryReplay(stored.machine, entries) }
      return replayed.value
    },
    tornFiles: grounds.tornOf(basename(file, '.jsonl'))
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
