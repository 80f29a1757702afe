import { canonicalJson, readCanonical } from '../canonical-json.js'
import { digestPattern, sha256Hex } from '../digest.js'
import type { Entry, RunId } from '../entry.js'
import { runId } from '../entry-shape.js'
import { instant, integer, list, matching, oneOf, optional, record, text, word } from '../shape.js'
import { hungLocks } from '../store/hung-locks.js'

/** A lock that still hung when its run was closed. */
export interface LeafLock {
  readonly point: string
  readonly lock: string
  /** Id of whoever hung it. */
  readonly by: string
  /** RFC 3339. */
  readonly since: string
}

/** One leaf of the site log: what a closed run came to. See FORMAT.md. */
export interface Leaf {
  readonly format: 'lockwright-leaf/1'
  readonly run: RunId
  /** SHA-256 of the last line of the journal, without its line feed. */
  readonly head: string
  /** Lines of the journal. */
  readonly entries: number
  /** Digest of the machine. */
  readonly machine: string
  readonly procedure: string
  readonly revision: number
  /** Tag of the equipment. */
  readonly equipment: string
  readonly mode: 'issued' | 'draft'
  readonly status: 'stopped' | 'finished'
  /** Of the last entry, RFC 3339. */
  readonly closedAt: string
  /** By what the entries say, in the order in which they were hung. */
  readonly locks: readonly LeafLock[]
  /** Serial number of the printed sheet that the run was entered from. */
  readonly sheet?: string
}

const digest = matching(digestPattern, 'a SHA-256 digest')

const leafShape = record({
  format: oneOf('lockwright-leaf/1'),
  run: runId,
  head: digest,
  entries: integer(2),
  machine: digest,
  procedure: word,
  revision: integer(0),
  equipment: text,
  mode: oneOf('issued', 'draft'),
  status: oneOf('stopped', 'finished'),
  closedAt: instant,
  locks: list(record({ point: word, lock: word, by: word, since: instant })),
  sheet: optional(word)
})

/** The leaf as it stands in the log and is hashed; without a line feed. */
export function formatLeaf(leaf: Leaf): string {
  return canonicalJson(leaf)
}

/** The leaf of one line; else why it is none. */
export function parseLeaf(line: string): { readonly leaf: Leaf } | { readonly fault: string } {
  const read = readCanonical(line)
  if ('fault' in read) return read
  const fault = leafShape(read.value)
  return fault === null ? { leaf: read.value as Leaf } : { fault: `it ${fault}` }
}

/**
 * The leaf of a run, from its entries alone; null: it adds none, being open or a rehearsal. `lastLine`: the last line of
 * the journal, without its line feed.
 */
export function leafOf(entries: readonly Entry[], lastLine: string): Leaf | null {
  const [first, last] = [entries[0], entries.at(-1)]
  if (first?.opens === undefined || last === undefined || first.event.kind !== 'opened') return null
  const { kind: status } = last.event
  const { mode, onPaper } = first.event
  if (mode === 'rehearsal' || (status !== 'finished' && status !== 'stopped')) return null
  const { machine, procedure, revision, equipment } = first.opens
  return {
    format: 'lockwright-leaf/1',
    run: first.run,
    head: sha256Hex(lastLine),
    entries: entries.length,
    machine,
    procedure,
    revision,
    equipment,
    mode,
    status,
    closedAt: last.at,
    locks: hungLocks(entries).map(({ point, lock, person, since }) => ({ point, lock, by: person, since })),
    ...(onPaper?.sheet === undefined ? {} : { sheet: onPaper.sheet })
  }
}
