import { existsSync, readFileSync } from 'node:fs'
import { basename, relative, resolve } from 'node:path'
import { stateOf } from '@lockwright/machine'
import { brokenFrom } from '../chain.js'
import type { Clock } from '../clock.js'
import { journalFiles } from '../list-runs.js'
import { thumbprint } from '../public-key.js'
import { layout, type Site } from '../site.js'
import { type Evidence, type Grounds, gather, readGrounds } from './evidence.js'
import { fit } from './fit.js'
import { followed } from './followed.js'
import { hangingLocks } from './hanging-locks.js'
import { issuedLater } from './issued-later.js'
import type { AuditReport, AuditVerdict, Question, RunAudit } from './report.js'
import { storyOf } from './story.js'
import { timely } from './timely.js'
import { type Found, verdictOn } from './verdict.js'
import { whole } from './whole.js'

export interface AuditRequest {
  readonly site: Site
  /** Run id, or the path of a journal (a copy from elsewhere, say); else every run of the site. */
  readonly run?: string
  /** Thumbprint or base64url of the root key that the auditor knows from elsewhere. */
  readonly trusted?: string
  readonly clock: Clock
}

const caution =
  'This report says which questions about the record were answered, and how. It does not say that the work was safe. Follow the rules of the plant, local codes and qualified people; the tool replaces none of them.'

/** Audits the records of a site. Reads only, and believes nothing but the root key and its own arithmetic. */
export function audit(request: AuditRequest): AuditReport {
  const grounds = readGrounds(request.site, request.trusted)
  const roster = grounds.roster.ok ? grounds.roster.value : null
  return {
    format: 'lockwright-audit/1',
    scope: request.run === undefined ? 'site' : 'run',
    site: roster?.site ?? basename(request.site.folder),
    at: request.clock.now().at,
    root:
      roster === null
        ? null
        : { thumbprint: thumbprint(roster.root), from: request.trusted === undefined ? 'site folder' : 'auditor' },
    roster: roster === null ? null : { serial: roster.serial, signedAt: roster.signedAt, people: roster.people.length },
    runs: filesOf(request).map((file) =>
      auditRun(grounds, file, existsSync(file) ? readFileSync(file) : Buffer.alloc(0))
    ),
    limits: limitsOf(request.trusted !== undefined),
    caution
  }
}

/** Whether every question of every run was answered `good`, and there is a run at all. */
export function allGood(report: AuditReport): boolean {
  return (
    report.runs.length > 0 && report.runs.every((run) => run.verdicts.every((verdict) => verdict.answer === 'good'))
  )
}

/** Audits one journal, given as bytes. */
export function auditRun(grounds: Grounds, file: string, bytes: Uint8Array): RunAudit {
  const evidence = gather(grounds, file, bytes)
  const { machine } = evidence
  const answer = (question: Question, look: typeof whole): AuditVerdict => {
    const { found, checked } = look(evidence)
    const relied = question === 'whole' ? [] : notReliedOn(evidence)
    return verdictOn(question, [...found, ...relied], checked, (seq) => whereIs(evidence, grounds.site, seq))
  }
  return {
    run: basename(file, '.jsonl'),
    file: relative(grounds.site.folder, file),
    summary: evidence.summary,
    title: machine?.title ?? null,
    equipment:
      machine === null ? null : `${machine.equipment.tag}, ${machine.equipment.name}, ${machine.equipment.place}`,
    issue: evidence.issue === null ? null : { ...pickIssue(evidence.issue), later: issuedLater(evidence) },
    locks: hangingLocks(evidence),
    waivers: machine?.waivers.map(({ obligation, why, by }) => ({ obligation, why, by })) ?? [],
    verdicts: [answer('whole', whole), answer('followed', followed), answer('fit', fit), answer('timely', timely)],
    entries: storyOf(evidence)
  }
}

/** Every other question is asked of the entries as they stand; where the chain breaks, their answers are no better. */
function notReliedOn({ reading }: Evidence): readonly Found[] {
  const seq = brokenFrom(reading)
  if (seq === null) return []
  return [
    {
      id: 'may-be-changed',
      weight: 'doubt',
      seq,
      what: `From line ${seq} on this was looked at as it stands there now; it may have been changed after it was written.`,
      danger: 'What was really done, read and signed from there on cannot be told.',
      mend: 'See what stands under `whole`.'
    }
  ]
}

function pickIssue(issue: NonNullable<Evidence['issue']>): Omit<NonNullable<RunAudit['issue']>, 'later'> {
  const { name, at, meaning, reason = null } = issue
  return { name, at, meaning, reason }
}

function filesOf(request: AuditRequest): readonly string[] {
  if (request.run === undefined) return journalFiles(request.site)
  const named = layout.journal(request.site, request.run)
  return [existsSync(named) ? named : resolve(request.run)]
}

/** File and line, and the step of the procedure where it can be told. */
function whereIs(evidence: Evidence, site: Site, seq: number | null): string {
  const file = relative(site.folder, evidence.file)
  if (seq === null) return file
  const state = evidence.replay?.snapshots[seq - 1]?.state
  if (evidence.machine === null || state === undefined) return `${file}:${seq}`
  const { span } = stateOf(evidence.machine, state)
  return `${file}:${seq}, at line ${span.line} of the procedure`
}

function limitsOf(trusted: boolean): readonly string[] {
  return [
    ...(trusted
      ? []
      : [
          'The root key was taken from the site folder itself. A folder that was replaced whole, root key and all, looks like this one: compare the thumbprint with a copy kept elsewhere.'
        ]),
    'A journal that was cut back to an older end, a journal that was removed whole, and a roster put back to an older signed one are noticed only by someone who kept a later copy.',
    'Times are those of the computers that wrote. Whoever holds a key can sign with a time of their choosing.',
    'Instruments, their calibration, and overdue inspections are not looked at.',
    'That a box was ticked says that someone ticked it.'
  ]
}
