import { basename } from 'node:path'
import { stateOf } from '@lockwright/machine'
import { brokenFrom } from '../chain.js'
import { datedAhead } from './dated-ahead.js'
import { type Evidence, type Grounds, gather } from './evidence.js'
import { fit } from './fit.js'
import { followed } from './followed.js'
import { hangingLocks, nameOf } from './hanging-locks.js'
import { issuedLater } from './issued-later.js'
import type { AuditAnswer, AuditDeviation, AuditVerdict, AuditWait, Question, RunAudit } from './report.js'
import { runDue } from './run-due.js'
import { storyOf } from './story.js'
import { timely } from './timely.js'
import { type Found, verdictOn } from './verdict.js'
import { waitsIn } from './waits.js'
import { whole } from './whole.js'

export interface RunAuditOptions {
  /** What the site log says against this run. */
  readonly logged?: readonly Found[]
  /** When the audit is made, RFC 3339: locks that hang are held against their shift then. */
  readonly at?: string
  /** False: the verdicts alone, without the story of each run. */
  readonly stories?: boolean
}

/** Audits one journal, given as bytes. */
export function auditRun(grounds: Grounds, file: string, bytes: Uint8Array, options: RunAuditOptions = {}): RunAudit {
  return judgeRun(grounds, gather(grounds, file, bytes), options)
}

/** The same of what was gathered already. */
export function judgeRun(grounds: Grounds, evidence: Evidence, options: RunAuditOptions = {}): RunAudit {
  const { machine, file } = evidence
  const path = grounds.shown(file)
  const answer = (question: Question, look: typeof whole): AuditVerdict => {
    const { found, checked } = look(evidence)
    const ahead = question === 'timely' ? datedAhead(evidence.summary, options.at ?? null) : []
    const further = question === 'whole' ? (options.logged ?? []) : [...ahead, ...notReliedOn(evidence)]
    return verdictOn(question, [...found, ...further], checked, (seq) => whereIs(evidence, path, seq), path)
  }
  const verdicts = [
    answer('whole', whole),
    answer('followed', followed),
    answer('fit', fit),
    answer('timely', timely),
    answer('due', (all) => runDue(all, options.at ?? null))
  ] as const
  return {
    run: basename(file, '.jsonl'),
    file: path,
    summary: evidence.summary,
    title: machine?.title ?? null,
    equipment:
      machine === null ? null : `${machine.equipment.tag}, ${machine.equipment.name}, ${machine.equipment.place}`,
    issue: evidence.issue === null ? null : { ...pickIssue(evidence.issue), later: issuedLater(evidence) },
    locks: hangingLocks(evidence),
    waivers: machine?.waivers.map(({ obligation, why, by }) => ({ obligation, why, by })) ?? [],
    answer: gravest(verdicts.map((verdict) => verdict.answer)),
    verdicts,
    waits: waitsOf(evidence),
    deviations: deviationsOf(evidence),
    people: peopleOf(evidence),
    entries: options.stories === false ? [] : storyOf(evidence)
  }
}

/** `findings` before `cannot-tell` before `good`. */
export function gravest(answers: readonly AuditAnswer[]): AuditAnswer {
  if (answers.includes('findings')) return 'findings'
  return answers.includes('cannot-tell') ? 'cannot-tell' : 'good'
}

/** Everyone who stands in the entries: who answers for one, typed it in, took over, or had a lock taken off. */
export function peopleOf({ entries }: Pick<Evidence, 'entries'>): readonly string[] {
  const people = new Set<string>()
  for (const { by, entered, event } of entries) {
    people.add(by)
    if (entered !== undefined) people.add(entered.by)
    if (event.kind === 'handed-over') people.add(event.to)
    if (event.kind === 'lock-removed') people.add(event.owner)
  }
  return [...people]
}

/** A wait that was ended too early stops the replay: it has to be shown all the same. */
function waitsOf({ machine, entries }: Evidence): readonly AuditWait[] {
  if (!Array.isArray(machine?.states)) return []
  return waitsIn(machine, entries).map(({ start, end, title, source, needed }) => ({
    seq: end.seq,
    title,
    source,
    needed,
    waited: (Date.parse(end.at) - Date.parse(start.at)) / 1000
  }))
}

function deviationsOf({ entries, machine, roster }: Evidence): readonly AuditDeviation[] {
  return entries.flatMap(({ seq, at, by, state, event }): readonly AuditDeviation[] => {
    if (event.kind !== 'deviation') return []
    const known = machine?.states.find((one) => one.id === state)?.title
    return [{ seq, at, by: nameOf(by, roster), title: known ?? state, reason: event.reason }]
  })
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

/** File and line, and the step of the procedure where it can be told. */
function whereIs(evidence: Evidence, file: string, seq: number | null): string {
  if (seq === null) return file
  const state = evidence.replay?.snapshots[seq - 1]?.state
  if (evidence.machine === null || state === undefined) return `${file}:${seq}`
  const { span } = stateOf(evidence.machine, state)
  return `${file}:${seq}, at line ${span.line} of the procedure`
}
