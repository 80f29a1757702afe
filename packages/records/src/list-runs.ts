import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import { type JournalReading, readChain } from './chain.js'
import type { Entry, RunId } from './entry.js'
import type { RecordsFault } from './result.js'
import type { RunSummary } from './run-types.js'
import { layout, type Site } from './site.js'

/** Every journal of the site, the latest opened first; a journal without a readable opening is a fault. */
export function listRuns(site: Site): {
  readonly runs: readonly RunSummary[]
  readonly faults: readonly RecordsFault[]
} {
  const runs: RunSummary[] = []
  const faults: RecordsFault[] = []
  for (const file of journalFiles(site)) {
    const reading = readChain(readFileSync(file), file, basename(file, '.jsonl'))
    const summary = summarize(reading, file)
    if (summary !== null) runs.push(summary)
    else faults.push(reading.faults[0] ?? nothingBegun(file))
  }
  return { runs: runs.toSorted((a, b) => Date.parse(b.openedAt) - Date.parse(a.openedAt)), faults }
}

/** Paths of the journals, in the order of their names. */
export function journalFiles(site: Site): readonly string[] {
  const folder = layout.runs(site)
  if (!existsSync(folder)) return []
  const names = readdirSync(folder).filter((name) => name.endsWith('.jsonl'))
  return names.toSorted().map((name) => join(folder, name))
}

/** What the readable entries say of the run; null without a readable opening. */
export function summarize(reading: JournalReading, file: string): RunSummary | null {
  const entries = reading.lines.flatMap((line) => (line.entry === null ? [] : [line.entry]))
  const first = reading.lines[0]?.entry
  const last = entries.at(-1)
  if (!first || last === undefined || first.opens === undefined || first.event.kind !== 'opened') return null
  return {
    run: first.run as RunId,
    file,
    mode: first.event.mode,
    onPaper: first.event.onPaper !== undefined,
    sheet: first.event.onPaper?.sheet ?? null,
    machine: first.opens.machine,
    procedure: first.opens.procedure,
    revision: first.opens.revision,
    equipment: first.opens.equipment,
    openedAt: first.at,
    openedBy: first.by,
    lastAt: last.at,
    entries: reading.lines.length,
    status: statusOf(entries)
  }
}

function statusOf(entries: readonly Entry[]): RunSummary['status'] {
  for (const { event } of entries.toReversed()) {
    if (event.kind === 'finished' || event.kind === 'stopped' || event.kind === 'paused') return event.kind
    if (event.kind === 'resumed') return 'running'
  }
  return 'running'
}

export function nothingBegun(file: string): RecordsFault {
  return {
    id: 'nothing-begun',
    file,
    line: null,
    what: 'The journal holds no whole entry.',
    danger: 'Nothing is on record of this run.',
    mend: 'Find out whether work was begun; start a new run.'
  }
}
