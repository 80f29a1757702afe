import { canonicalJson, readCanonical } from '../canonical-json.js'
import { digestPattern } from '../digest.js'
import type { RunId } from '../entry.js'
import { runId } from '../entry-shape.js'
import { bad, good, type RecordsResult } from '../result.js'
import { instant, integer, list, matching, oneOf, optional, record, text, word } from '../shape.js'

/** A lock that hung in a run when it was closed, and that no run which the checkpoint covers took off later. */
export interface KeptLock {
  readonly run: RunId
  readonly equipment: string
  readonly status: 'stopped' | 'finished'
  /** RFC 3339. */
  readonly closedAt: string
  readonly point: string
  readonly lock: string
  /** Id of whoever hung it. */
  readonly by: string
  /** RFC 3339. */
  readonly since: string
}

/** Which of the documents that are signed anew with each change held. */
export interface KeptSerial {
  readonly serial: number
  /** Of all its bytes. */
  readonly sha256: string
}

/** A closed run that was entered from a printed sheet. */
export interface KeptSheet {
  readonly run: RunId
  readonly sheet: string
  readonly status: 'stopped' | 'finished'
  readonly closedAt: string
}

/**
 * What an auditor takes home from an audit, so that the next one need not read again what cannot change: the checkpoint,
 * and what the leaves that it covers say. It is the auditor's own; nothing in it is signed but the checkpoint.
 */
export interface KeptAudit {
  readonly format: 'lockwright-kept/1'
  /** When it was kept, by the clock of the auditor. RFC 3339. */
  readonly at: string
  /** The signed note. */
  readonly checkpoint: string
  /** What the audits until then answered of runs that the checkpoint covers; the rest was never read by this auditor. */
  readonly answers: { readonly good: number; readonly findings: number; readonly cannotTell: number }
  /** The roster and the list of instruments that held then, the latter where there was one. */
  readonly signed: {
    readonly 'people.yaml': KeptSerial
    readonly 'instruments.yaml'?: KeptSerial
  }
  /** Names of all runs that the checkpoint covers, in their order: one a leaf. */
  readonly runs: readonly string[]
  readonly locks: readonly KeptLock[]
  readonly sheets: readonly KeptSheet[]
}

const status = oneOf('stopped', 'finished')

const serial = record({ serial: integer(1), sha256: matching(digestPattern, 'a SHA-256 digest') })

const keptShape = record({
  format: oneOf('lockwright-kept/1'),
  at: instant,
  checkpoint: text,
  answers: record({ good: integer(0), findings: integer(0), cannotTell: integer(0) }),
  signed: record({ 'people.yaml': serial, 'instruments.yaml': optional(serial) }),
  runs: list(runId),
  locks: list(
    record({
      run: runId,
      equipment: text,
      status,
      closedAt: instant,
      point: word,
      lock: word,
      by: word,
      since: instant
    })
  ),
  sheets: list(record({ run: runId, sheet: word, status, closedAt: instant }))
})

/** As it is written: canonical JSON and a line feed. */
export function formatKept(kept: KeptAudit): string {
  return `${canonicalJson(kept)}\n`
}

/** What an auditor gives: a checkpoint alone, or one with what was kept beside it. `file`: where it came from. */
export function readKept(
  given: string,
  file: string
): RecordsResult<{ readonly note: string; readonly kept: KeptAudit | null }> {
  if (!given.startsWith('{')) return good({ note: given, kept: null })
  const read = readCanonical(given.replace(/\n$/, ''))
  if ('fault' in read) return noKept(file, read.fault)
  const fault = keptShape(read.value)
  if (fault !== null) return noKept(file, `it ${fault}`)
  const kept = read.value as KeptAudit
  const misplaced = kept.runs.find((run, index) => index > 0 && run <= (kept.runs[index - 1] ?? ''))
  if (misplaced !== undefined) return noKept(file, `run ${misplaced} does not stand in its place`)
  // Second line of a checkpoint; that it is one, and signed, is looked at where it is held against the log.
  if (kept.checkpoint.split('\n')[1] !== String(kept.runs.length)) {
    return noKept(file, `it names ${kept.runs.length} runs, and its checkpoint is of another number`)
  }
  return good({ note: kept.checkpoint, kept })
}

function noKept(file: string, why: string): RecordsResult<never> {
  return bad({
    id: 'kept-unreadable',
    file,
    what: `This is not what an audit wrote with \`--keep\`: ${why}.`,
    danger: 'What would be taken from it instead of from the log could be anything.',
    mend: 'Give a copy that was not touched, or the checkpoint alone; then the whole log is read.'
  })
}
