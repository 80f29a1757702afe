import type { Use } from '../inspection/inspector-fault.js'
import { readSheets, type SheetDocument, type SheetRun } from '../sheets/sheets-of.js'
import type { Store } from '../store/store.js'
import type { StoreGrounds } from './grounds.js'
import { inspectionsDue, type SoundIssue } from './inspection-due.js'
import type { AuditVerdict, InspectionState, SheetOut } from './report.js'
import { calibrationsDue, qualificationsDue } from './running-out.js'
import { sheetsDue } from './sheets-due.js'
import { type Found, verdictOn } from './verdict.js'

export interface GeneralDue {
  readonly verdict: AuditVerdict
  readonly states: readonly InspectionState[]
  readonly sheets: readonly SheetOut[]
  readonly notAnswered: readonly string[]
}

/** What of the site as a whole has to be seen to: periodic inspections, sheets that are out, papers that run out. */
export async function generalDue(
  store: Store,
  grounds: StoreGrounds,
  uses: ReadonlyMap<string, readonly Use[]>,
  runs: readonly SheetRun[],
  at: string
): Promise<GeneralDue> {
  const { roster, instruments } = grounds
  const sheets = sheetsDue(readSheets(await sheetDocuments(store), runs), at)
  if (!roster.ok) {
    const fault = roster.faults[0]
    const found: Found = { ...fault, weight: 'doubt', seq: null, file: 'people.yaml' }
    return {
      verdict: verdictOn('due', [found, ...sheets.found], sheets.checked, () => '', ''),
      states: [],
      sheets: sheets.states,
      notAnswered: ['Whether inspections are due: without a sound roster no signature under one can be checked.']
    }
  }
  const today = at.slice(0, 10)
  const inspections = inspectionsDue(
    await soundIssues(store, grounds),
    await inspectionFilesOf(store),
    uses,
    roster.value,
    today
  )
  const people = qualificationsDue(roster.value, uses, today)
  const gauges = instruments.ok && instruments.value !== null ? calibrationsDue(instruments.value, today) : null
  const parts = [inspections, sheets, people, ...(gauges === null ? [] : [gauges])]
  const found = parts.flatMap((part) => part.found)
  const checked = parts.flatMap((part) => part.checked)
  return {
    verdict: verdictOn('due', found, checked, () => '', ''),
    states: inspections.states,
    sheets: sheets.states,
    notAnswered: gauges === null ? ['Whether calibrations run out: no list of instruments can be read here.'] : []
  }
}

async function soundIssues(store: Store, grounds: StoreGrounds): Promise<readonly SoundIssue[]> {
  const issues: SoundIssue[] = []
  for (const { path } of await store.documents('issued')) {
    const digest = /^issued\/([0-9a-f]{64})\.jws$/.exec(path)?.[1]
    if (digest === undefined) continue
    await grounds.fetchMachine(digest)
    const { machine, issue } = grounds.machineOf(digest)
    if (machine !== null && issue !== null) issues.push({ machine, issue })
  }
  return issues
}

async function inspectionFilesOf(
  store: Store
): Promise<readonly { readonly file: string; readonly bytes: Uint8Array }[]> {
  const files: { file: string; bytes: Uint8Array }[] = []
  for (const { path } of await store.documents('inspections')) {
    const bytes = path.endsWith('.jws') ? await store.document(path) : null
    if (bytes !== null) files.push({ file: path, bytes })
  }
  return files
}

async function sheetDocuments(store: Store): Promise<readonly SheetDocument[]> {
  const documents: SheetDocument[] = []
  for (const { path } of await store.documents('sheets')) {
    const bytes = path.endsWith('.json') ? await store.document(path) : null
    if (bytes !== null) documents.push({ name: path.slice('sheets/'.length), file: path, bytes })
  }
  return documents
}
