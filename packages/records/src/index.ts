export { type AuditRequest, allGood, audit, auditAndKeep, type JournalFile } from './audit/audit.js'
export { formatKept, type KeptAudit, type KeptLock, type KeptSerial, type KeptSheet, readKept } from './audit/kept.js'
export { leastSeconds } from './audit/least-seconds.js'
export * from './audit/report.js'
export { type Clock, systemClock } from './clock.js'
export { type LockElsewhere, tellElsewhere } from './elsewhere/lock-elsewhere.js'
export { locksElsewhere } from './elsewhere/locks-elsewhere.js'
export { type BareEvent, type Entry, eventOf, type Opening, type RunId, type SignatureNote } from './entry.js'
export { type Inspecting, type InspectRequest, inspect } from './inspection/inspect.js'
export type { Inspected, Inspection } from './inspection/inspection.js'
export {
  type Accuracy,
  type Calibration,
  calibratedAt,
  type Instrument,
  type InstrumentRating,
  type Instruments,
  instrumentOf,
  withdrawnAt
} from './instruments/instrument.js'
export {
  fittingInstruments,
  type InstrumentFault,
  instrumentFaults,
  type TakenReading
} from './instruments/instrument-faults.js'
export {
  type Circuit,
  type DeclaredRating,
  type InstrumentNeed,
  instrumentNeed,
  provenAgainNeed
} from './instruments/instrument-need.js'
export {
  addInstrument,
  calibrateInstrument,
  readInstruments,
  withdrawInstrument
} from './instruments/keep-instruments.js'
export { readAccuracy, readRange, readRating } from './instruments/read-instrument.js'
export { readingBound } from './instruments/reading-bound.js'
export {
  coordinator,
  draftMachine,
  type Issue,
  type Issued,
  type IssueRequest,
  isIssued,
  issue,
  issuedMachine,
  lastIssued
} from './issue.js'
export { type IssuedPicture, namedPictures, unsignedPicture } from './issued-pictures.js'
export type { SetAside } from './journal.js'
export { changePassphrase } from './key-store.js'
export { knownQualifications } from './known-qualifications.js'
export { listRuns } from './list-runs.js'
export type { LeavesAppended } from './log/append-leaves.js'
export { type CheckLog, checkLog, type LogChecked } from './log/check-log.js'
export { completeLog } from './log/complete-log.js'
export type { Leaf, LeafLock } from './log/leaf.js'
export type { LogFinding } from './log/log-findings.js'
export { checkJournalOfProof, checkProofFile, type ProvenRun } from './log/proof-file.js'
export { proveRun } from './log/prove-run.js'
export { findLeaf, leavesAfter, type NumberedLeaf, readLog, type SiteLog } from './log/read-log.js'
export { type SignedLog, signLog } from './log/sign-log.js'
export { formatNoteKey, type NoteKey, parseNoteKey } from './log/signed-note.js'
export {
  type AddPerson,
  addPerson,
  type InitSite,
  initSite,
  qualifyPerson,
  revokePerson,
  setShift,
  siteRoot,
  unlockKey
} from './people.js'
export { type ChangeKey, loseKey, rotateKey, stealKey } from './people-keys.js'
export { replaceRoot, rotateRoot } from './people-root.js'
export { thumbprint } from './public-key.js'
export { type AuditSarif, auditSarif } from './report/audit-sarif.js'
export { auditSchema } from './report/audit-schema.js'
export type { Chart, ChartFill, ChartMark, ChartPoint } from './report/charts/chart.js'
export { chartsOf } from './report/charts/charts-of.js'
export { formatAuditCsv } from './report/format-audit-csv.js'
export { formatAuditHtml } from './report/format-audit-html.js'
export { formatAuditText } from './report/format-audit-text.js'
export { formatHangingText } from './report/format-hanging-text.js'
export { markOf, type OverviewRow, overviewOf, stateOfRun } from './report/overview.js'
export { type SiteTable, siteTablesOf } from './report/site-tables.js'
export { tellRoot } from './report/tell-root.js'
export { noneTold } from './report/view.js'
export type { RecordsFault, RecordsResult } from './result.js'
export type { FormerRoot, KeyEnd, Person, PersonKey, Qualification, Roster } from './roster.js'
export { holdsAt, personOf, readRoster } from './roster-file.js'
export { everyKey, type KeyDoubt, keyDoubt, keyOf, keysOf, rootKeysOf, tellEnd } from './roster-keys.js'
export { resumeRun, startRun } from './run.js'
export type * from './run-types.js'
export { registerSheet, type SheetToPrint, type VoidRequest, voidSheet } from './sheets/register-sheet.js'
export { parseSerial, type Serial } from './sheets/serial.js'
export { type SheetForEntry, sheetForEntry } from './sheets/sheet-for-entry.js'
export type { PrintedSheet, SheetRecord, VoidSheet } from './sheets/sheet-record.js'
export {
  type KnownSheet,
  readSheets,
  type SheetDocument,
  type SheetList,
  type SheetRun,
  type SheetState,
  sheetsOf
} from './sheets/sheets-of.js'
export {
  type LockPastShift,
  type LockSpan,
  lockSpans,
  locksPastShift,
  shiftEnd,
  shiftHoursOf,
  usualShiftHours
} from './shift.js'
export { openSite, type Site } from './site.js'
export { folderStore } from './store/folder-store.js'
export { memoryStore } from './store/memory-store.js'
export { type SignedStoreLog, signStoreLog } from './store/sign-store-log.js'
export type * from './store/store.js'
export { isStoreFailure, StoreFailure } from './store/store-failure.js'
export { syncSite } from './store/sync.js'
export type { SignedDone, SyncCount, SyncReport } from './store/sync-report.js'
export { visible } from './visible.js'
