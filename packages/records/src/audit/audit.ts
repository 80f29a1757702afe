import { basename } from 'node:path'
import type { Clock } from '../clock.js'
import { type Use, usesIn } from '../inspection/inspector-fault.js'
import type { RecordsResult } from '../result.js'
import type { Roster } from '../roster.js'
import type { SheetRun } from '../sheets/sheets-of.js'
import type { Store } from '../store/store.js'
import { auditHead, limitsOf } from './audit-head.js'
import { judgeRun, peopleOf } from './audit-run.js'
import { evidenceOf, type ReadJournal, readJournal, rosterIn } from './evidence.js'
import { filterOf, type RunFilter } from './filter.js'
import { generalDue } from './general-due.js'
import { type StoreGrounds, storeGrounds } from './grounds.js'
import { coveredLocks, coveredSheets, hangingNow, locksCovered, openRun } from './hanging-now.js'
import { keepAudit } from './keep-audit.js'
import { type KeptAudit, readKept } from './kept.js'
import { putBackFound, type SignedNow, signedNow } from './kept-signed.js'
import { loggedFound, removedRuns, takenFromLog } from './logged-run.js'
import { coveredStories, type LockStory, lockStoryOf, overLocksIn, withOverLock } from './over-lock.js'
import type { AuditReport, AuditVerdict, HangingNow, RunAudit } from './report.js'
import { checkSignaturesBeside } from './signatures.js'
import { logFile, readStoreLog, type StoreLog } from './store-log.js'
import { type TakenOff, takenOffIn, withoutTakenOff } from './taken-off.js'
import { count, type Found, verdictOn } from './verdict.js'

/** A journal that lies outside the store. */
export interface JournalFile {
  readonly file: string
  readonly bytes: Uint8Array
}

export interface AuditRequest {
  readonly store: Store
  /** Name of a run; else all of them. */
  readonly run?: string
  /** Journals from elsewhere, to be audited on the grounds of this store. */
  readonly journals?: readonly JournalFile[]
  /** Thumbprint or base64url of the root key that the auditor knows from elsewhere. */
  readonly trusted?: string
  readonly clock: Clock
  /** `YYYY-MM-DD` or RFC 3339: runs in which something happened then or later. */
  readonly since?: string
  /** Tag of the equipment. */
  readonly equipment?: string
  /** Id of someone who stands in the run. */
  readonly person?: string
  /** Text of the checkpoint that the auditor kept, or of the file that `auditAndKeep` made. */
  readonly checkpoint?: string
  /**
   * `YYYY-MM-DD` or RFC 3339: since when the auditor has that checkpoint. A file that was kept says it itself. What is
   * signed with a key that was stolen later, in a run that the checkpoint covers, was signed before the theft.
   */
  readonly keptSince?: string
  /** Runs that the kept checkpoint covers are not read again; with a file that was kept, neither are their leaves. */
  readonly newOnly?: true
  /** False: verdicts alone, without the story of each run. */
  readonly stories?: boolean
}

/** How many journals are in hand at once, so that signatures of one are worked out while the next is read. */
const inHand = 16

/** Audits records. Reads only, and believes nothing but the root key, the kept checkpoint and its own arithmetic. */
export async function audit(request: AuditRequest): Promise<AuditReport> {
  return (await auditAll(request)).report
}

/** The same, and what the auditor takes home from it: next time it stands for the runs that were closed by now. */
export async function auditAndKeep(
  request: AuditRequest
): Promise<{ readonly report: AuditReport; readonly kept: RecordsResult<KeptAudit> }> {
  const { report, log, off, roster, now } = await auditAll(request)
  return { report, kept: keepAudit(report, log, off, roster, now) }
}

async function auditAll(request: AuditRequest): Promise<{
  readonly report: AuditReport
  readonly log: StoreLog
  readonly off: readonly TakenOff[]
  readonly roster: Roster | null
  readonly now: SignedNow
}> {
  const { store, clock } = request
  const { at } = clock.now()
  const grounds = await storeGrounds(store, request.trusted)
  const roster = rosterIn(grounds)
  const one = request.run !== undefined || request.journals !== undefined
  const given = request.checkpoint === undefined ? null : readKept(request.checkpoint, logFile)
  const log = await readStoreLog(store, roster, { read: given, goByKept: request.newOnly === true && !one })
  const names = one ? [] : await store.runIds()
  const until = request.newOnly === true ? (log.covered ?? 0) : 0
  const fresh =
    until === 0
      ? names
      : names.filter((name) => !log.keptRuns.has(name) && (log.leaves.get(name)?.number ?? until) >= until)
  const skipped = names.length - fresh.length
  const filter = filterOf(request)
  const kept = given?.ok === true ? given.value.kept : null
  const now = await signedNow(store, grounds)
  const keptSince = keptSinceOf(request, kept)
  const work: Work = {
    request,
    at,
    grounds,
    log,
    keptSince,
    filter,
    uses: new Map(),
    summaries: [],
    off: [],
    stories: []
  }
  const read: ReadRun[] = []
  const begun: Promise<ReadRun>[] = []
  const settle = async (): Promise<void> => {
    const done = await begun.shift()
    if (done !== undefined) read.push(done)
  }
  for (const asked of one ? (request.journals ?? [request.run ?? '']) : fresh) {
    begun.push(auditOne(work, asked))
    if (begun.length >= inHand) await settle()
  }
  while (begun.length > 0) await settle()
  const over = overLocksIn(one ? [] : [...work.stories, ...coveredStories(locksCovered(log, until))])
  const settled = read.map(({ run, isLeftOut }) => ({
    ...withoutTakenOff(withOverLock(run, over.get(run.run) ?? []), work.off, roster),
    isLeftOut
  }))
  const runs = settled.filter(({ isLeftOut }) => !isLeftOut).map(({ run }) => run)
  const covered = coveredLocks(log, until, work.off, roster, at)
  // A lock hangs whichever runs were asked for: no filter hides one.
  const hanging = [...settled.flatMap(({ run }) => hangingNow(run, grounds, at)), ...covered.hanging]
  const due = one
    ? null
    : await generalDue(store, grounds, work.uses, [...work.summaries, ...coveredSheets(log, until)], at)
  const report: AuditReport = {
    ...auditHead(grounds.roster, request, at, store.name),
    asked: filter.asked(skipped, log),
    general:
      due === null
        ? []
        : [
            logVerdict(
              names,
              log,
              kept === null ? [] : [...takenFromLog(kept, log, names), ...putBackFound(kept, now)]
            ),
            due.verdict
          ],
    runs,
    hanging: inOrder(hanging),
    takenOffLater: [...settled.flatMap(({ taken }) => taken), ...covered.taken],
    open: runs.flatMap((run) => openRun(run)),
    inspections: due?.states ?? [],
    sheets: due?.sheets ?? [],
    notAnswered: [
      ...notAnswered(request, log, skipped),
      ...(one && hanging.some(({ status }) => status === 'stopped') ? [laterNotRead] : []),
      ...(due?.notAnswered ?? [])
    ],
    limits: limitsOf(
      request.trusted !== undefined,
      request.checkpoint === undefined ? 'none' : kept === null ? 'checkpoint' : 'kept',
      !grounds.instruments.ok || grounds.instruments.value !== null
    )
  }
  return { report, log, off: work.off, roster, now }
}

/** Whether every question was answered `good`, and there is a run at all. */
export function allGood({ runs, general }: Pick<AuditReport, 'runs' | 'general'>): boolean {
  return (
    runs.length > 0 && runs.every(({ answer }) => answer === 'good') && general.every(({ answer }) => answer === 'good')
  )
}

interface Work {
  readonly request: AuditRequest
  readonly at: string
  readonly grounds: StoreGrounds
  readonly log: StoreLog
  /** RFC 3339: since when the auditor has the checkpoint, at the latest; null: nobody says. */
  readonly keptSince: string | null
  readonly filter: RunFilter
  /** Who worked by which procedure, of every run that was read. */
  readonly uses: Map<string, Use[]>
  /** Of every run that was read: sheets are looked up in them. */
  readonly summaries: SheetRun[]
  /** Locks that the runs which were read took off. */
  readonly off: TakenOff[]
  /** What each run that was read says of locks and of switching on. */
  readonly stories: LockStory[]
}

/** A run that a filter leaves out is judged too: which of its locks hang is asked of every run. */
interface ReadRun {
  readonly run: RunAudit
  readonly isLeftOut: boolean
}

async function auditOne(work: Work, asked: string | JournalFile): Promise<ReadRun> {
  const { request, grounds, log, filter, uses, summaries } = work
  const stored = typeof asked === 'string'
  const file = stored ? `runs/${asked}.jsonl` : asked.file
  const name = basename(file, '.jsonl')
  const bytes = stored ? ((await request.store.journal(asked)) ?? new Uint8Array()) : asked.bytes
  const journal = readJournal(file, bytes)
  noteUse(uses, name, journal)
  if (journal.summary !== null) summaries.push(journal.summary)
  const isLeftOut = filter.leavesOut(journal.summary, () => peopleOf(journal))
  if (journal.digest !== null) await grounds.fetchMachine(journal.digest)
  const signatures = await checkSignaturesBeside(journal.reading, rosterIn(grounds))
  const logged = loggedFound(journal, name, log)
  const isCovered = logged.length === 0 && (log.leaves.get(name)?.number ?? Infinity) < (log.covered ?? 0)
  const evidence = evidenceOf(grounds, journal, signatures, isCovered ? work.keptSince : null)
  const run = judgeRun(grounds, evidence, { logged, at: work.at, stories: !isLeftOut && (request.stories ?? true) })
  work.off.push(...takenOffIn(run, journal.entries))
  work.stories.push(...lockStoryOf(run, evidence))
  return { run, isLeftOut }
}

/** A day stands for its end: the checkpoint may have been kept late on it. */
function keptSinceOf({ keptSince }: AuditRequest, kept: KeptAudit | null): string | null {
  if (kept !== null) return kept.at
  if (keptSince === undefined) return null
  return keptSince.length === 10 ? `${keptSince}T23:59:59.999Z` : keptSince
}

function noteUse(uses: Map<string, Use[]>, run: string, { entries, summary }: ReadJournal): void {
  if (summary === null) return
  const known = uses.get(summary.procedure) ?? []
  known.push(...usesIn(run, entries))
  uses.set(summary.procedure, known)
}

function logVerdict(names: readonly string[], log: StoreLog, since: readonly Found[]): AuditVerdict {
  const { checked, size } = log
  const found = [...log.found, ...since]
  if (size === 0 && found.length === 0) {
    return verdictOn(
      'whole',
      [],
      ['No site log was begun here: whether a run was removed cannot be told'],
      () => '',
      logFile
    )
  }
  const where = (seq: number | null): string => (seq === null ? logFile : `${logFile}:${seq}`)
  return verdictOn('whole', [...found, ...removedRuns(names, log)], checked, where, logFile)
}

function notAnswered(request: AuditRequest, { size, covered, kept }: StoreLog, skipped: number): readonly string[] {
  const told: string[] = []
  if (size === 0) told.push('Whether a run was removed: there is no site log here.')
  else if (covered === null)
    told.push(
      'Whether a run was removed from the log and the folder both: that needs a checkpoint that was kept elsewhere.'
    )
  if (request.newOnly === true && covered === null) {
    told.push('`new-only` needs a checkpoint that holds, so every run was read.')
  }
  if (skipped > 0 && kept !== null) {
    const { good, findings, cannotTell } = kept.answers
    told.push(
      `${count(skipped, 'run')} and their leaves were not read again. From what was kept on ${kept.at} were taken: their names, ${count(kept.locks.length, 'lock')} that hung when they were closed, and ${count(kept.sheets.length, 'sheet')} that they were entered from. By then ${good} of them had been found good, ${findings} with findings, and of ${cannotTell} something could not be told. That the log still begins with exactly these runs is shown by the kept checkpoint; a change in one of their journals is found by an audit of all.`
    )
  } else if (skipped > 0) {
    told.push(
      `Of ${skipped} runs that the kept checkpoint covers, the log says that they are the ones that were audited then. Their journals were not read again: a change in one is found by an audit of all.`
    )
  }
  return told
}

const laterNotRead =
  'Whether a later run took off what this one left on: other runs are read by an audit of the site alone.'

/** The longest hanging first; those of which it is not known before all others. */
function inOrder(hanging: readonly HangingNow[]): readonly HangingNow[] {
  return hanging.toSorted((a, b) => (b.hours ?? Number.MAX_VALUE) - (a.hours ?? Number.MAX_VALUE))
}
