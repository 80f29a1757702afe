import { sha256Hex } from '../digest.js'
import { parseEntry, runId } from '../entry-shape.js'
import type { RecordsFault } from '../result.js'
import type { Appended } from './store.js'
import { journalPath } from './stored-run.js'

/** What a store has of a run already. */
export interface Standing {
  /** How many lines. */
  readonly entries: number
  /** SHA-256 of line `seq`; asked only for the lines that were handed in and the one before them. */
  hashOf(seq: number): string
}

export type Judged =
  | { readonly kind: 'add'; readonly lines: readonly string[] }
  | Exclude<Appended, { kind: 'appended' }>

/** Which of the lines are new and may be added after what stands; the one place where that is decided. */
export function judgeAppend(run: string, from: number, lines: readonly string[], standing: Standing): Judged {
  if (runId(run) !== null || !Number.isSafeInteger(from) || from < 1) {
    return refused(run, 1, 'it belongs to no run that can be kept')
  }
  if (from > standing.entries + 1) return gap(run, standing.entries + 1, from)
  for (const [index, line] of lines.entries()) {
    const seq = from + index
    if (seq > standing.entries) break
    const offered = sha256Hex(line)
    const here = standing.hashOf(seq)
    if (offered !== here) return { kind: 'fork', run, seq, here, offered, fault: forkFault(run, seq, here, offered) }
  }
  const fresh = lines.slice(standing.entries + 1 - from)
  let prev = standing.entries === 0 || fresh.length === 0 ? null : standing.hashOf(standing.entries)
  for (const [index, line] of fresh.entries()) {
    const seq = standing.entries + 1 + index
    const why = misplaced(run, seq, prev, line)
    if (why !== null) return refused(run, seq, why)
    prev = sha256Hex(line)
  }
  return { kind: 'add', lines: fresh }
}

/** Why the line cannot stand there; `prev` is the hash of the line before it, null: it is the first. */
function misplaced(run: string, seq: number, prev: string | null, line: string): string | null {
  const parsed = parseEntry(line)
  if ('fault' in parsed) return parsed.fault
  const { entry } = parsed
  if (entry.run !== run) return 'it belongs to another run'
  if (entry.seq !== seq) return `it bears the number ${entry.seq}`
  const first = seq === 1
  if ((entry.opens !== undefined) !== first || (entry.event.kind === 'opened') !== first) {
    return first ? 'it opens no run' : 'it opens a run'
  }
  return entry.prev === (prev ?? entry.opens?.machine) ? null : 'it is not chained to the line before it'
}

export function forkFault(run: string, seq: number, here: string, offered: string): RecordsFault {
  return {
    id: 'fork',
    file: journalPath(run),
    line: seq,
    what: `Two different lines have the number ${seq} in run \`${run}\`: here ${here}, offered ${offered} (SHA-256).`,
    danger: 'The run was written on in two places, or one of the two was changed; one of them did not happen so.',
    mend: 'Nothing was merged. Keep both journals, find out on the spot what was done and what is locked, and have a coordinator decide which of the two holds.'
  }
}

function gap(run: string, expected: number, from: number): Appended & { readonly kind: 'gap' } {
  const fault = {
    id: 'gap',
    file: journalPath(run),
    line: expected,
    what: `Line ${expected} of run \`${run}\` is not here yet, and line ${from} was handed in.`,
    danger: 'A step that is missing could not be told from one that was never done.',
    mend: `Hand in the lines from ${expected} on.`
  }
  return { kind: 'gap', run, expected, fault }
}

function refused(run: string, seq: number, why: string): Appended & { readonly kind: 'refused' } {
  const fault = {
    id: 'not-an-entry',
    file: journalPath(run),
    line: seq,
    what: `Line ${seq} of run \`${run}\` was not taken: ${why}.`,
    danger: 'A step may have been changed, left out, put in or moved after the fact.',
    mend: 'Audit the journal where it was written, and compare it with another copy.'
  }
  return { kind: 'refused', run, fault }
}
