import { existsSync, readFileSync } from 'node:fs'
import { type JournalReading, readChain } from '../chain.js'
import { sha256Hex } from '../digest.js'
import type { RunId } from '../entry.js'
import { summarize } from '../list-runs.js'
import { layout, type Site } from '../site.js'
import { formatLeaf, type Leaf, leafOf, parseLeaf } from './leaf.js'
import {
  type LogFinding,
  misstatedRun,
  removedRun,
  rewrittenRun,
  runNotInLog,
  twiceInLog,
  unreadableLeaf
} from './log-findings.js'
import { logFolder } from './log-folder.js'
import type { LogReader } from './log-reader.js'
import { unloggedRuns } from './unlogged-runs.js'

/** Holds each leaf from number `from` on against its journal, and looks for closed runs that have no leaf. */
export function checkRuns(site: Site, reader: LogReader, from: number, runs: 'all' | 'new'): readonly LogFinding[] {
  const findings: LogFinding[] = []
  const seen = new Set<string>()
  for (const [at, line] of reader.lines(from).entries()) {
    const number = from + at
    const read = parseLeaf(line)
    if ('fault' in read) {
      findings.push(unreadableLeaf(lineOf(site, number), number, read.fault))
      continue
    }
    const { leaf } = read
    const before = runs === 'new' ? reader.numberOf(leaf.run) : number
    if (seen.has(leaf.run) || (before !== null && before < from))
      findings.push(twiceInLog(lineOf(site, number), number, leaf.run))
    seen.add(leaf.run)
    const finding = againstJournal(site, number, leaf)
    if (finding !== null) findings.push(finding)
  }
  const known = from === 0 ? seen : reader.logged()
  return [...findings, ...notInLog(site, known).filter(({ run }) => run === null || !seen.has(run))]
}

/** What speaks against a leaf in the journal of its run; null: nothing. */
export function againstJournal(site: Site, number: number, leaf: Leaf): LogFinding | null {
  const file = layout.journal(site, leaf.run)
  return existsSync(file) ? againstBytes(readFileSync(file), file, number, leaf) : removedRun(file, number, leaf)
}

/** The same for the bytes of a journal, wherever they came from. */
export function againstBytes(bytes: Uint8Array, file: string, number: number, leaf: Leaf): LogFinding | null {
  return againstReading(readChain(bytes, file, leaf.run), file, number, leaf)
}

/** The same for a journal that was read. */
export function againstReading(
  { faults, lines }: JournalReading,
  file: string,
  number: number,
  leaf: Leaf
): LogFinding | null {
  const last = lines.at(-1)?.text ?? ''
  if (sha256Hex(last) !== leaf.head || lines.length !== leaf.entries || faults.length > 0) {
    return rewrittenRun(file, number, leaf, { entries: lines.length, head: sha256Hex(last) })
  }
  const entries = lines.flatMap(({ entry }) => (entry === null ? [] : [entry]))
  const stated = leafOf(entries, last)
  return stated !== null && formatLeaf(stated) === formatLeaf(leaf) ? null : misstatedRun(file, number, leaf)
}

const lineOf = (site: Site, number: number): string => `${logFolder.leaves(site)}:${number + 1}`

function notInLog(site: Site, known: ReadonlySet<string>): readonly LogFinding[] {
  return unloggedRuns(site, known).flatMap((run) => {
    const file = layout.journal(site, run)
    const summary = summarize(readChain(readFileSync(file), file, run), file)
    const isClosed = summary?.status === 'finished' || summary?.status === 'stopped'
    return summary !== null && isClosed && summary.mode !== 'rehearsal' ? [runNotInLog(file, run as RunId)] : []
  })
}
