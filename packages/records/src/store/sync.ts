import { sha256Hex } from '../digest.js'
import { completeLog } from '../log/complete-log.js'
import type { RecordsFault } from '../result.js'
import type { Site } from '../site.js'
import { folderStore } from './folder-store.js'
import { readLeaf } from './judge-leaf.js'
import { documentFolders, type Store, signedNames } from './store.js'
import { isStoreFailure } from './store-failure.js'
import { newTally, type SyncReport, type SyncTally } from './sync-report.js'
import { syncRuns } from './sync-runs.js'

/**
 * Hands everything of a site folder to a shared store: roster and instruments, documents, journals, and last the leaves
 * of the log, so that a reader there never sees something without what it stands on. Doing it twice is harmless, and one
 * that was cut off anywhere is gone on with by doing it again. Nothing is merged and nothing replaced: where the two
 * differ, that is a finding. Never rejects for a failure of either store; see `stopped`.
 */
export async function syncSite(site: Site, to: Store): Promise<SyncReport> {
  const tally = newTally()
  const from = folderStore(site)
  let stopped: RecordsFault | null = null
  try {
    // A crash can have lost the leaf of a run that was closed.
    const completed = completeLog(site)
    if (!completed.ok) tally.findings.push(...completed.faults)
    await syncSigned(from, to, tally)
    for (const folder of documentFolders) {
      const there = new Map((await to.documents(folder)).map(({ path, sha256 }) => [path, sha256]))
      // In the order of their paths: a machine before its signature.
      for (const { path, sha256 } of await from.documents(folder)) {
        if (there.get(path) === sha256) tally.documents.same += 1
        else await syncDocument(from, to, path, tally)
      }
    }
    const behind = await syncRuns(site, from, to, tally)
    await syncLeaves(from, to, behind, tally)
  } catch (error) {
    if (!isStoreFailure(error)) throw error
    stopped = error.fault
  }
  return { from: from.name, to: to.name, ...tally, stopped }
}

/** The higher number goes to where the lower one is, in either direction, if the same root key or its heir signed it. */
async function syncSigned(from: Store, to: Store, tally: SyncTally): Promise<void> {
  for (const name of signedNames) {
    const here = await from.signed(name)
    if (here === null) continue
    const done = await to.supersede(name, here)
    if (done.kind === 'kept') tally.signed[name] = 'sent'
    else if (done.kind === 'same') tally.signed[name] = 'same'
    else {
      const newer = done.kind === 'older' ? await to.signed(name) : null
      const brought = newer === null ? done : await from.supersede(name, newer)
      tally.signed[name] = 'fault' in brought ? 'refused' : 'brought'
      if ('fault' in brought) tally.findings.push(brought.fault)
    }
  }
}

async function syncDocument(from: Store, to: Store, path: string, tally: SyncTally): Promise<void> {
  const bytes = await from.document(path)
  if (bytes === null) return
  const done = await to.keep(path, bytes)
  if (done.kind === 'kept') tally.documents.sent += 1
  else if (done.kind === 'same') tally.documents.same += 1
  else {
    tally.documents.refused += 1
    tally.findings.push(done.fault)
  }
}

const leavesAtOnce = 1_000

/** `behind`: runs whose journal could not be sent whole; what is wrong with them is told already. */
async function syncLeaves(from: Store, to: Store, behind: ReadonlySet<string>, tally: SyncTally): Promise<void> {
  for (let at = 0; ; at += leavesAtOnce) {
    const lines = await from.leaves(at, leavesAtOnce)
    const named = lines.map((line) => ({ line, run: runNamedIn(line) }))
    const there = await to.leafHashes(named.flatMap(({ run }) => (run === null ? [] : [run])))
    for (const { line, run } of named) {
      if (run !== null && there.get(run) === sha256Hex(line)) tally.leaves.same += 1
      else if (run !== null && behind.has(run)) tally.leaves.refused += 1
      else {
        const done = await to.addLeaf(line)
        if (done.kind === 'added') tally.leaves.sent += 1
        else if (done.kind === 'same') tally.leaves.same += 1
        else {
          tally.leaves.refused += 1
          tally.findings.push(done.fault)
        }
      }
    }
    if (lines.length < leavesAtOnce) return
  }
}

function runNamedIn(line: string): string | null {
  const read = readLeaf(line)
  return 'leaf' in read ? read.leaf.run : null
}
