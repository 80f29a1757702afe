import type { RunId } from '../entry.js'
import type { Leaf } from './leaf.js'

/** Something in the log, or between the log and the journals, that is not as it should be. */
export interface LogFinding {
  readonly id:
    | 'log-forked'
    | 'log-shortened'
    | 'log-tiles'
    | 'log-unfinished'
    | 'leaf-unreadable'
    | 'leaf-misstates'
    | 'run-removed'
    | 'run-rewritten'
    | 'run-not-in-log'
    | 'run-twice-in-log'
  /** `doubt`: a crash can have caused it. */
  readonly weight: 'fault' | 'doubt'
  /** The run concerned; null: the log as a whole. */
  readonly run: RunId | null
  /** Number of the leaf, from 0; null where there is none. */
  readonly number: number | null
  readonly file: string
  readonly what: string
  readonly danger: string
  readonly mend: string
}

/** `file` is that of the leaves; as the caller shows paths. */
export const forkedLog = (file: string, size: number): LogFinding => ({
  run: null,
  number: null,
  file,
  id: 'log-forked',
  weight: 'fault',
  what: `The first ${size} leaves of the log are not those that the checkpoint was signed over.`,
  danger:
    'A closed run was removed, changed, put in or moved after the checkpoint was signed. Which one, the checkpoint does not say.',
  mend: 'Compare with a copy of `log/leaves.jsonl` from that time: the first line that differs tells. Do not rely on runs closed before the checkpoint until then.'
})

export const shorterLog = (file: string, kept: number, size: number): LogFinding => ({
  run: null,
  number: null,
  file,
  id: 'log-shortened',
  weight: 'fault',
  what: `The checkpoint is newer than the log: it was signed over ${kept} leaves, and the log has ${size}.`,
  danger: `${kept - size} closed runs or more were taken out of the log, or the folder was put back to an older copy.`,
  mend: 'Put back the newest copy of the site folder. If there is none, ask who closed runs since; what hung then hangs unseen.'
})

/** `file`: the folder of the log. */
export const tilesDiffer = (file: string): LogFinding => ({
  run: null,
  number: null,
  file,
  id: 'log-tiles',
  weight: 'fault',
  what: 'The tiles of the log, from which proofs are made, do not fit its leaves.',
  danger:
    'Proofs made of them would be refused. The leaves themselves were worked out anew and are told apart from this.',
  mend: 'If nothing else was found, remove `log/tile`; `log checkpoint` makes it anew.'
})

export const unfinishedLog = (file: string): LogFinding => ({
  run: null,
  number: null,
  file,
  id: 'log-unfinished',
  weight: 'doubt',
  what: 'Something was being written to the log when the computer or the process stopped, or is being written now.',
  danger: 'The run that was closed last may not be in the log yet.',
  mend: '`log checkpoint`, or the start of the next run, puts it right; then check again.'
})

/** `file`: that of the leaves, and the line in it. */
export const unreadableLeaf = (file: string, number: number, why: string): LogFinding => ({
  run: null,
  number,
  file,
  id: 'leaf-unreadable',
  weight: 'fault',
  what: `Leaf ${number} is not what was written: ${why}.`,
  danger: 'What run it stood for, and what hung when that was closed, cannot be told.',
  mend: 'Put back the newest copy of `log/leaves.jsonl`.'
})

export const removedRun = (file: string, number: number, leaf: Leaf): LogFinding => ({
  run: leaf.run,
  number,
  file,
  id: 'run-removed',
  weight: 'fault',
  what: `The journal of run \`${leaf.run}\` is gone. By the log it was ${leaf.status} on ${leaf.closedAt} on ${leaf.equipment}${hung(leaf)}.`,
  danger: 'Who did what there, and what was read, can no longer be told.',
  mend: 'Put back the journal from a copy; its last line has the hash that the log keeps. Ask who removed it.'
})

/** `now`: lines of the journal, and the hash of its last one. */
export const rewrittenRun = (
  file: string,
  number: number,
  leaf: Leaf,
  now: { readonly entries: number; readonly head: string }
): LogFinding => ({
  run: leaf.run,
  number,
  file,
  id: 'run-rewritten',
  weight: 'fault',
  what: `${tellRewritten(leaf, now)} When it was closed it was ${leaf.status} on ${leaf.equipment}${hung(leaf)}.`,
  danger: 'Steps, readings or signatures may have been changed, left out or put in after the run was closed.',
  mend: 'Compare with another copy of the journal; the right one ends in the line whose hash the log keeps.'
})

function tellRewritten({ run, entries, head }: Leaf, now: { readonly entries: number; readonly head: string }): string {
  if (now.entries < entries) {
    return `The journal of run \`${run}\` was cut back: it has ${now.entries} lines, and had ${entries} when it was closed.`
  }
  return now.head === head
    ? `A line of the journal of run \`${run}\` before its last one was changed after it was closed.`
    : `The journal of run \`${run}\` is not the one that was closed: its last line has another hash than the log keeps.`
}

export const misstatedRun = (file: string, number: number, leaf: Leaf): LogFinding => ({
  run: leaf.run,
  number,
  file,
  id: 'leaf-misstates',
  weight: 'fault',
  what: `Leaf ${number} says other things of run \`${leaf.run}\` than its journal does.`,
  danger: 'What the log says was locked, or to which equipment the run belongs, cannot be relied on.',
  mend: 'Go by the journal, if its signatures hold. Ask who could write to the log.'
})

export const runNotInLog = (file: string, run: RunId): LogFinding => ({
  run,
  number: null,
  file,
  id: 'run-not-in-log',
  weight: 'doubt',
  what: `Run \`${run}\` is closed and is not in the log.`,
  danger: 'No checkpoint covers it: it could be removed or rewritten without anybody seeing it.',
  mend: '`log checkpoint` takes it in, if its chain is unbroken. If it does not, see what `audit` says of it.'
})

export const twiceInLog = (file: string, number: number, run: RunId): LogFinding => ({
  run,
  number,
  file,
  id: 'run-twice-in-log',
  weight: 'fault',
  what: `Run \`${run}\` has a second leaf, number ${number}.`,
  danger: 'A run is closed once. One of the two leaves is of a journal that was rewritten, or was put in by hand.',
  mend: 'Compare both with the journal, and ask who could write to the log.'
})

function hung({ locks }: Leaf): string {
  if (locks.length === 0) return ''
  const told = locks.map(({ by, lock, point, since }) => `lock ${lock} of ${by} on ${point} since ${since}`)
  return `, with ${told.join(', ')} still on`
}
