import { basename } from 'node:path'
import { sha256Hex } from '../digest.js'
import { formatLeaf, leafOf } from '../log/leaf.js'
import type { ReadJournal } from './evidence.js'
import { leafIn, logFile, type StoreLog } from './store-log.js'
import type { Found } from './verdict.js'

/** What the site log says against a journal: a leaf that is missing, or that speaks of other bytes. */
export function loggedFound(journal: ReadJournal, run: string, { leaves, size }: StoreLog): readonly Found[] {
  const logged = leaves.get(run)
  const { summary, reading } = journal
  const last = reading.lines.at(-1)
  if (logged === undefined) {
    const closed = summary !== null && (summary.status === 'finished' || summary.status === 'stopped')
    return size > 0 && closed && summary.mode !== 'rehearsal' ? [notInLog(reading.lines.length)] : []
  }
  const leaf = leafIn(logged)
  if (leaf === null || last === undefined) return [otherThanLogged(logged.number, null, 'the leaf cannot be read')]
  if (reading.lines.length !== leaf.entries) {
    const what = `the log has it closed with ${leaf.entries} entries, and ${reading.lines.length} stand in the journal`
    return [otherThanLogged(logged.number, Math.min(reading.lines.length, leaf.entries), what)]
  }
  if (sha256Hex(last.text) !== leaf.head) {
    return [otherThanLogged(logged.number, leaf.entries, 'its last line is not the one that the log has the hash of')]
  }
  const stated = leafOf(journal.entries, last.text)
  return stated !== null && formatLeaf(stated) === logged.line ? [] : [misstated(logged.number, leaf.entries)]
}

/** Runs that were closed and have no journal any more. `runs`: the names of the journals that are here. */
export function removedRuns(runs: readonly string[], { leaves, kept }: StoreLog): readonly Found[] {
  // Names are not listed twice, so as many as were closed means that none is gone.
  const closed = new Set(kept?.runs)
  for (const run of leaves.keys()) closed.add(run)
  if (runs.reduce((sum, run) => sum + (closed.has(run) ? 1 : 0), 0) === closed.size) return []
  const here = new Set(runs)
  return [...closed].flatMap((run): readonly Found[] => {
    if (here.has(run)) return []
    const number = leaves.get(run)?.number ?? null
    return [
      {
        id: 'run-removed',
        weight: 'fault',
        seq: number === null ? null : number + 1,
        file: logFile,
        what: `Run ${run} stands in the log, and its journal is not here.`,
        danger: 'What was done in it, and who signed it, was taken out of the records or was lost.',
        mend: `Look for another copy of \`runs/${basename(run)}.jsonl\`, and find out who could remove it.`
      }
    ]
  })
}

function notInLog(lines: number): Found {
  return {
    id: 'run-not-in-log',
    weight: 'doubt',
    seq: lines,
    what: 'The run is closed and stands in no leaf of the site log.',
    danger: 'It may have been put among the records afterwards, or a crash kept it out of the log.',
    mend: 'Ask those who were there. The next run that is closed here adds a leaf that a crash left out.'
  }
}

function misstated(number: number, seq: number): Found {
  return {
    id: 'leaf-misstates',
    weight: 'fault',
    seq,
    what: `The leaf of this run in the site log (leaf ${number + 1}) says other things of it than the journal does.`,
    danger: 'A lock that was left, or the procedure that was followed, is told wrong by whoever reads the log alone.',
    mend: 'Go by the journal, whose hash the leaf has. Find out what wrote the leaf.'
  }
}

function otherThanLogged(number: number, seq: number | null, why: string): Found {
  return {
    id: 'run-rewritten',
    weight: 'fault',
    seq,
    what: `The journal is not the one that was put into the site log (leaf ${number + 1}): ${why}.`,
    danger: 'The run was changed, cut off or written anew after it was closed.',
    mend: 'Compare with another copy of the journal. Do not rely on this one.'
  }
}
