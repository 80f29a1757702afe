import { randomBytes } from 'node:crypto'
import { basename } from 'node:path'
import { type Machine, type PersonId, type Snapshot, start } from '@lockwright/machine'
import { canonicalJson } from './canonical-json.js'
import { sha256Hex } from './digest.js'
import { whereDiskHolds } from './disk/disk-trouble.js'
import type { Entry, RunId } from './entry.js'
import { runId } from './entry-shape.js'
import { keepDraft, readIssue } from './issue.js'
import { createJournal, type Journal, openJournal } from './journal.js'
import { liveRun } from './live-run.js'
import { catchUpLog } from './log/log-closed-run.js'
import { goneAt } from './may-do.js'
import { replay } from './replay.js'
import { bad, good, type RecordsFault, type RecordsResult } from './result.js'
import type { Roster } from './roster.js'
import { personOf, readRoster } from './roster-file.js'
import { tellEnd } from './roster-keys.js'
import type { ResumeRun, Run, StartRun } from './run-types.js'
import { layout, makeFolders } from './site.js'

/** Opens a journal; its first entry is on the disk when this returns. */
export function startRun(request: StartRun): RecordsResult<Run> {
  return whereDiskHolds(layout.runs(request.site), () => begin(request))
}

function begin(request: StartRun): RecordsResult<Run> {
  const { site, machine, mode, onPaper } = request
  const digest = sha256Hex(canonicalJson(machine))
  makeFolders(site.folder)
  if (mode === 'issued') {
    const refused = notReleased(request, digest)
    if (refused !== null) return refused
  } else keepDraft(site, machine)
  const id = request.id ?? makeId(request)
  const file = layout.journal(site, id)
  if (runId(id) !== null) return notAnId(id, file)
  const journal = createJournal(file)
  if (!journal.ok) return journal
  const run = liveRun({
    id: id as RunId,
    site,
    machine,
    mode,
    enteredBy: onPaper?.enteredBy ?? null,
    clock: request.clock,
    journal: journal.value,
    opens: {
      format: 'lockwright-journal/1',
      machine: digest,
      procedure: machine.procedure,
      revision: machine.revision,
      equipment: machine.equipment.tag
    },
    entries: [],
    snapshot: start(machine)
  })
  const paper = onPaper === undefined ? {} : { onPaper: bareSheet(onPaper) }
  const at = onPaper === undefined ? {} : { at: onPaper.at }
  const opened = run.take({ kind: 'opened', mode, by: request.by, ...paper, ...at })
  if (opened.ok) {
    catchUpLog(site)
    return good(run)
  }
  run.close()
  const [refusal] = opened.refusals
  return bad({ id: 'not-opened', file, what: refusal.why, danger: 'The run was not opened.', mend: refusal.mend })
}

/** Replays a journal through `advance` and stands exactly where it was left. */
export function resumeRun(request: ResumeRun): RecordsResult<Run> {
  const { site, machine } = request
  const file = layout.journal(site, request.run)
  if (runId(request.run) !== null) return notAnId(request.run, file)
  const journal = openJournal(file)
  if (!journal.ok) return journal
  const read = replayed(journal.value, machine)
  if (!read.ok) {
    journal.value.close()
    return read
  }
  const { entries, first, snapshot } = read.value
  return good(
    liveRun({
      id: request.run,
      site,
      machine,
      mode: first.event.mode,
      enteredBy: first.event.onPaper?.enteredBy ?? null,
      clock: request.clock,
      journal: journal.value,
      opens: first.opens,
      entries,
      snapshot
    })
  )
}

/** What the opening of a run from paper keeps of the sheet. */
function bareSheet({ enteredBy, sheet }: NonNullable<StartRun['onPaper']>): { enteredBy: PersonId; sheet?: string } {
  return { enteredBy, ...(sheet === undefined ? {} : { sheet }) }
}

type First = Entry & {
  readonly event: Extract<Entry['event'], { readonly kind: 'opened' }>
  readonly opens: NonNullable<Entry['opens']>
}

function replayed(
  journal: Journal,
  machine: Machine
): RecordsResult<{ readonly entries: readonly Entry[]; readonly first: First; readonly snapshot: Snapshot }> {
  const [fault, ...more] = journal.reading.faults
  if (fault !== undefined) return { ok: false, faults: [fault, ...more] }
  const entries = journal.reading.lines.flatMap((line) => (line.entry === null ? [] : [line.entry]))
  const first = entries[0]
  if (first === undefined) {
    return bad({
      id: 'nothing-begun',
      file: journal.file,
      what: 'The run was cut off before its first entry was written.',
      danger: 'Nothing is on record of it.',
      mend: 'Start a new run.'
    })
  }
  const opens = (first as First).opens
  if (sha256Hex(canonicalJson(machine)) !== opens.machine) return otherMachine(journal.file, opens.machine)
  const result = replay(machine, entries)
  return result.stopped === null
    ? good({ entries, first: first as First, snapshot: result.snapshot })
    : { ok: false, faults: [doesNotReplay(journal.file, result.stopped)] }
}

function doesNotReplay(file: string, stopped: { readonly seq: number; readonly why: string }): RecordsFault {
  return {
    id: 'does-not-replay',
    file,
    line: stopped.seq,
    what: `Line ${stopped.seq} does not follow from what stands before it: ${stopped.why}`,
    danger: 'Where the run stands cannot be told, so no step after it can be relied on.',
    mend: 'Find out on the spot what is locked and what is live, and start a new run.'
  }
}

function notReleased(request: StartRun, digest: string): RecordsResult<never> | null {
  const roster = readRoster(request.site)
  if (!roster.ok) return roster
  const issued = readIssue(request.site, digest, roster.value)
  if (!issued.ok) return issued
  const people = [request.by, ...(request.onPaper === undefined ? [] : [request.onPaper.enteredBy])]
  const stranger = people.find((id) => personOf(roster.value, id) === null)
  if (stranger === undefined) return typistGone(request, roster.value)
  return bad({
    id: 'no-such-person',
    file: layout.people(request.site),
    what: `Nobody on the roster has the id \`${stranger}\`.`,
    danger: 'The record could not say who did the work.',
    mend: 'Give the id as `people list` shows it, or have the person added.'
  })
}

/** Whoever does not work here any more types in no sheet either. */
function typistGone({ site, onPaper, clock }: StartRun, roster: Roster): RecordsResult<never> | null {
  const ended = onPaper === undefined ? null : goneAt(roster, onPaper.enteredBy, clock.now().at)
  if (onPaper === undefined || ended === null) return null
  return bad({
    id: 'not-here-any-more',
    file: layout.people(site),
    what: `\`${onPaper.enteredBy}\` may not type in a sheet: their key ${tellEnd(ended)}.`,
    danger: 'What is typed in could not be put to anybody who answers for it.',
    mend: 'Have it typed in by someone who works here.'
  })
}

/** `20260302-p-202-1f3a9c07`: the day, the equipment, and what keeps two of a day apart. */
function makeId(request: StartRun): string {
  const day = request.clock.now().at.slice(0, 10).replaceAll('-', '')
  const tag = request.machine.equipment.tag
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-|-$/g, '')
  return [day, tag.slice(0, 40), randomBytes(4).toString('hex')].filter((part) => part !== '').join('-')
}

function notAnId(id: string, file: string): RecordsResult<never> {
  return bad({
    id: 'not-a-run-id',
    file,
    what: `\`${basename(id)}\` cannot be the name of a run.`,
    danger: 'Its journal could not be found again on every computer.',
    mend: 'Use lower-case letters, digits and `-`, up to 80.'
  })
}

function otherMachine(file: string, digest: string): RecordsResult<never> {
  return bad({
    id: 'other-machine',
    file,
    line: 1,
    what: 'The run was begun with another revision of the machine than the one given.',
    danger: 'Steps may differ from those that were done.',
    mend: `Go on with the machine of digest ${digest}; it is kept in \`issued/\` or \`drafts/\` of the site folder.`
  })
}
