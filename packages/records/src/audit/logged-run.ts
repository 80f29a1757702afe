import { basename } from 'node:path'
import type { RunId } from '../entry.js'
import { againstReading } from '../log/check-runs.js'
import { removedRun, runNotInLog, unreadableLeaf } from '../log/log-findings.js'
import type { ReadJournal } from './evidence.js'
import type { KeptAudit } from './kept.js'
import { asFound, leafIn, logFile, type StoreLog } from './store-log.js'
import type { Found } from './verdict.js'

/** What the site log says against a journal: a leaf that is missing, or that speaks of other bytes. */
export function loggedFound(journal: ReadJournal, run: string, { leaves, size }: StoreLog): readonly Found[] {
  const logged = leaves.get(run)
  const { file, summary, reading } = journal
  const last = reading.lines.length
  if (logged === undefined) {
    const closed = summary !== null && (summary.status === 'finished' || summary.status === 'stopped')
    const isMissing = size > 0 && closed && summary.mode !== 'rehearsal'
    return isMissing ? [asFound(runNotInLog(file, run as RunId), last)] : []
  }
  const leaf = leafIn(logged)
  if (leaf === null) return [asFound(unreadableLeaf(logFile, logged.number, 'it does not have the form of one'), null)]
  // A broken chain is told as that; here it matters whether these are the lines that were closed.
  const found = againstReading({ ...reading, faults: [] }, file, logged.number, leaf)
  return found === null ? [] : [asFound(found, last === 0 ? null : Math.min(last, leaf.entries))]
}

/** Runs that were closed and have no journal any more. `runs`: the names of the journals that are here. */
export function removedRuns(runs: readonly string[], { leaves, keptRuns }: StoreLog): readonly Found[] {
  // Names are not listed twice, so as many as were closed means that none is gone.
  const isClosed = (run: string): boolean => leaves.has(run) || keptRuns.has(run)
  if (runs.reduce((sum, run) => sum + (isClosed(run) ? 1 : 0), 0) === leaves.size + keptRuns.size) return []
  const here = new Set(runs)
  return [...keptRuns, ...leaves.keys()].flatMap((run): readonly Found[] => {
    if (here.has(run)) return []
    const logged = leaves.get(run)
    const leaf = logged === undefined ? null : leafIn(logged)
    if (logged !== undefined && leaf !== null) {
      return [asFound(removedRun(`runs/${run}.jsonl`, logged.number, leaf), logged.number + 1, logFile)]
    }
    return [
      {
        id: 'run-removed',
        weight: 'fault',
        seq: null,
        file: logFile,
        what: `Run ${run} stands in the log, and its journal is not here.`,
        danger: 'What was done in it, and who signed it, was taken out of the records or was lost.',
        mend: `Look for another copy of \`runs/${basename(run)}.jsonl\`, and find out who could remove it.`
      }
    ]
  })
}

/** Runs that the auditor knows from what was kept, and that the log has no more. `here`: names of the journals. */
export function takenFromLog(
  kept: KeptAudit,
  { leaves, kept: wentBy }: StoreLog,
  here: readonly string[]
): readonly Found[] {
  if (wentBy !== null) return []
  const journals = new Set(here)
  return kept.runs.flatMap((run): readonly Found[] => {
    if (leaves.has(run)) return []
    const journal = journals.has(run) ? 'its journal is here' : 'its journal is not here either'
    return [
      {
        id: 'run-taken-from-log',
        weight: 'fault',
        seq: null,
        file: logFile,
        what: `Run ${run} stood in the log when the auditor kept it on ${kept.at}, and does not now; ${journal}.`,
        danger: 'What was done in it, and who signed it, was taken out of the records, or can be without a trace.',
        mend: `Look for another copy of \`runs/${basename(run)}.jsonl\` and of the log, and find out who could change them.`
      }
    ]
  })
}
