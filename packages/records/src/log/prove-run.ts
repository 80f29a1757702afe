import { bad, good, type RecordsResult } from '../result.js'
import type { Roster } from '../roster.js'
import { readRoster } from '../roster-file.js'
import { layout, type Site } from '../site.js'
import { formatLeaf } from './leaf.js'
import { logFolder } from './log-folder.js'
import { openCheckpointOf } from './open-checkpoint.js'
import { formatProofFile } from './proof-file.js'
import { findLeaf, fromReader, lastCheckpoint } from './read-log.js'
import { leafHash } from './tree-hash.js'
import { proveInclusion } from './tree-proofs.js'
import { inclusionHolds } from './verify-tree-proofs.js'

/** The text of a proof that a run is in the log: with its leaf and the checkpoint signed last, to be checked anywhere. */
export function proveRun(site: Site, run: string, trusted?: string): RecordsResult<string> {
  const roster = readRoster(site, trusted)
  if (!roster.ok) return roster
  const found = findLeaf(site, run)
  if (!found.ok) return found
  if (found.value === null) return notInLog(site, run)
  const note = lastCheckpoint(site)
  if (note === null) return notCovered(site, run)
  return proofOf(site, roster.value, note, found.value.number, formatLeaf(found.value.leaf), run)
}

function proofOf(
  site: Site,
  roster: Roster,
  note: string,
  number: number,
  leaf: string,
  run: string
): RecordsResult<string> {
  const opened = openCheckpointOf(roster, note, logFolder.checkpoint(site))
  if (!opened.ok) return opened
  const { root, size } = opened.value
  if (number >= size) return notCovered(site, run)
  return fromReader(site, ({ node }) => {
    const path = proveInclusion(number, size, node)
    return inclusionHolds({ index: number, size, leaf: leafHash(leaf), path, root })
      ? good(formatProofFile({ leaf, index: number, path, checkpoint: note }))
      : doesNotFit(site)
  })
}

function notInLog(site: Site, run: string): RecordsResult<never> {
  return bad({
    id: 'run-not-in-log',
    file: layout.journal(site, run),
    what: `Run \`${run}\` has no leaf in the log.`,
    danger: 'Nothing can be proven of it: it is open, a rehearsal, or its journal is not whole.',
    mend: 'See that the name is right and that the run is closed; then see what `audit` says of it. `log checkpoint` takes in every closed run whose chain is unbroken.'
  })
}

function notCovered(site: Site, run: string): RecordsResult<never> {
  return bad({
    id: 'not-covered',
    file: logFolder.checkpoint(site),
    what: `No checkpoint has been signed since run \`${run}\` was closed.`,
    danger: 'A proof would hang on nothing that the site signed.',
    mend: 'Sign one with `log checkpoint`, then prove the run.'
  })
}

function doesNotFit(site: Site): RecordsResult<never> {
  return bad({
    id: 'log-forked',
    file: logFolder.leaves(site),
    what: 'The log is not the one that the checkpoint was signed over.',
    danger: 'A run was removed, changed, put in or moved in the log since.',
    mend: 'See what `log check` with a checkpoint that was kept elsewhere says.'
  })
}
