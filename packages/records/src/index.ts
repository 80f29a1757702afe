export { type AuditRequest, allGood, audit } from './audit/audit.js'
export { leastSeconds } from './audit/least-seconds.js'
export * from './audit/report.js'
export { type Clock, systemClock } from './clock.js'
export { type BareEvent, type Entry, eventOf, type Opening, type RunId, type SignatureNote } from './entry.js'
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
export type { SetAside } from './journal.js'
export { knownQualifications } from './known-qualifications.js'
export { listRuns } from './list-runs.js'
export {
  type AddPerson,
  addPerson,
  type InitSite,
  initSite,
  qualifyPerson,
  revokePerson,
  siteRoot,
  unlockKey
} from './people.js'
export { thumbprint } from './public-key.js'
export { formatAuditHtml } from './report/format-audit-html.js'
export { formatAuditText } from './report/format-audit-text.js'
export type { RecordsFault, RecordsResult } from './result.js'
export type { Person, Qualification, Roster } from './roster.js'
export { holdsAt, personOf, readRoster } from './roster-file.js'
export { resumeRun, startRun } from './run.js'
export type * from './run-types.js'
export { openSite, type Site } from './site.js'
export { visible } from './visible.js'
