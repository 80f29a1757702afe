import { brokenFrom, type JournalReading, readChain, standingLines } from '../chain.js'
import { sha256Hex } from '../digest.js'
import { diskInUse } from '../disk/disk-in-use.js'
import type { RunId } from '../entry.js'
import { summarize } from '../list-runs.js'
import type { RecordsFault } from '../result.js'
import { layout, type Site } from '../site.js'
import { onDisk } from './folder-store.js'
import type { Appended, RunHead, Store } from './store.js'
import { journalPath } from './stored-run.js'
import type { SyncTally } from './sync-report.js'

const runsAtOnce = 500
const linesAtOnce = 500
const charactersAtOnce = 1_000_000

/** Sends journals; gives the runs that did not get there whole. */
export async function syncRuns(site: Site, from: Store, to: Store, tally: SyncTally): Promise<ReadonlySet<string>> {
  const behind = new Set<string>()
  const runs = await from.runIds()
  for (let at = 0; at < runs.length; at += runsAtOnce) {
    const some = runs.slice(at, at + runsAtOnce)
    const heads = await to.heads(some)
    for (const run of some) {
      const bytes = await from.journal(run)
      if (bytes !== null && !(await syncRun(site, to, run as RunId, bytes, heads.get(run) ?? null, tally))) {
        behind.add(run)
      }
    }
  }
  return behind
}

/** Whether all that stands in the journal is there now. */
async function syncRun(
  site: Site,
  to: Store,
  run: RunId,
  bytes: Uint8Array,
  there: RunHead | null,
  tally: SyncTally
): Promise<boolean> {
  const reading = readChain(bytes, journalPath(run), run)
  const { lines, torn, damage } = soundLines(reading)
  if (torn) {
    tally.notes.push(`${journalPath(run)}: the torn line at its end was left out; it was never acknowledged.`)
  }
  if (damage !== null) tally.findings.push(damage)
  const sent = await sendLines(site, to, run, lines, there)
  const summary = summarize(reading, journalPath(run))
  if (sent.fault !== null) tally.findings.push(sent.fault)
  tally.lines += sent.lines
  if (sent.lines > 0 && (summary?.status === 'running' || summary?.status === 'paused')) tally.open += 1
  if (sent.fault !== null || damage !== null) tally.runs.refused += 1
  else if (sent.lines > 0) tally.runs.sent += 1
  else if (lines.length > 0) tally.runs.same += 1
  return sent.fault === null && damage === null
}

interface Sent {
  readonly lines: number
  readonly fault: RecordsFault | null
}

async function sendLines(
  site: Site,
  to: Store,
  run: RunId,
  lines: readonly string[],
  there: RunHead | null
): Promise<Sent> {
  const standing = there?.entries ?? 0
  const last = Math.min(standing, lines.length)
  const agrees = last === 0 || (standing === last && sha256Hex(lines[last - 1] ?? '') === there?.hash)
  if (!agrees) {
    // The store finds the line where they part; where it finds none, it only has more of the run.
    const compared = await to.append(run, 1, lines.slice(0, last))
    const fault = faultOf(compared) ?? (standing > lines.length ? storeAhead(run, lines.length, standing) : null)
    return { lines: 0, fault }
  }
  if (lines.length > last) settle(site, run)
  let done = last
  while (done < lines.length) {
    const some = batch(lines, done)
    const added = await to.append(run, done + 1, some)
    if (added.kind !== 'appended') return { lines: done - last, fault: added.fault }
    done += some.length
  }
  return { lines: done - last, fault: null }
}

function faultOf(appended: Appended): RecordsFault | null {
  return appended.kind === 'appended' ? null : appended.fault
}

function batch(lines: readonly string[], from: number): readonly string[] {
  const some: string[] = []
  let characters = 0
  for (const line of lines.slice(from, from + linesAtOnce)) {
    if (some.length > 0 && characters + line.length > charactersAtOnce) break
    some.push(line)
    characters += line.length
  }
  return some
}

/** Lines that stand whole and chained from the first one on; what a crash left behind them is torn, and no damage. */
function soundLines(reading: JournalReading): {
  readonly lines: readonly string[]
  readonly torn: boolean
  readonly damage: RecordsFault | null
} {
  const standing = standingLines(reading)
  const faults = reading.faults.filter(({ line }) => line === null || line <= standing.length)
  const broken = brokenFrom({ ...reading, faults })
  return {
    lines: standing.slice(0, broken === null ? standing.length : broken - 1).map(({ text }) => text),
    torn: reading.torn.length > 0 || standing.length < reading.lines.length,
    damage: faults[0] ?? null
  }
}

/**
 * A last line that a living writer has not synced yet could be gone after a power cut, and another be written in its
 * place: it is on this disk before another store has it. A disk that can only be read has no such line.
 */
function settle(site: Site, run: string): void {
  try {
    const handle = diskInUse().open(layout.journal(site, run), 'append')
    try {
      diskInUse().sync(handle)
    } finally {
      diskInUse().close(handle)
    }
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException
    if (code === 'EROFS' || code === 'EACCES' || code === 'EPERM') return
    onDisk(site, () => {
      throw error
    })
  }
}

function storeAhead(run: string, here: number, there: number): RecordsFault {
  return {
    id: 'folder-behind',
    file: journalPath(run),
    line: null,
    what: `This folder has ${here} lines of run \`${run}\`, and the shared store has ${there}.`,
    danger:
      'Lines that were on record here are gone, or the run was gone on with elsewhere. Whoever goes on with it here makes a second history of it.',
    mend: 'Do not go on with this run here. Find out where the later lines come from, and what is locked now.'
  }
}
