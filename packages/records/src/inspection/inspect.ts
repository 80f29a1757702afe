import { randomBytes } from 'node:crypto'
import { existsSync, readFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import type { PersonId } from '@lockwright/machine'
import { readChain } from '../chain.js'
import type { Clock } from '../clock.js'
import { writeDurably } from '../durable-file.js'
import type { RunId } from '../entry.js'
import { lastIssued } from '../issue.js'
import { journalFiles } from '../list-runs.js'
import { publicBytesOf } from '../public-key.js'
import { bad, good, type RecordsResult } from '../result.js'
import type { Roster } from '../roster.js'
import { personOf, readRoster } from '../roster-file.js'
import { keyOf } from '../roster-keys.js'
import type { Signer } from '../run-types.js'
import { date } from '../shape.js'
import { layout, type Site } from '../site.js'
import { daysBefore } from './days.js'
import { firstIssueDay } from './first-issue-day.js'
import { formatInspection, type Inspected, type Inspection, inspectionMeaning } from './inspection.js'
import { inspectorFault, type Use, usersOf, usesIn } from './inspector-fault.js'
import { soundInspections } from './sound-inspections.js'

export interface InspectRequest {
  readonly site: Site
  /** Id of the procedure, as it was issued. */
  readonly procedure: string
  readonly signer: Signer
  readonly clock: Clock
  /** Day of the inspection, `YYYY-MM-DD`; else today in UTC. */
  readonly on?: string
  /** Ids of the employees who were included. */
  readonly employees: readonly string[]
  /** Ids of those with whom their responsibilities were gone through. */
  readonly reviewed: readonly string[]
  readonly deviations: readonly { readonly found: string; readonly corrected: string }[]
  /** Run that was watched. */
  readonly watched?: string
}

export interface Inspecting {
  readonly inspection: Inspection
  readonly file: string
}

/** Signs the record of a periodic inspection and keeps it under `inspections/`. */
export function inspect(request: InspectRequest): RecordsResult<Inspecting> {
  const { site, signer } = request
  const roster = readRoster(site)
  if (!roster.ok) return roster
  const { at } = request.clock.now()
  const issued = lastIssued(site, request.procedure)
  if (issued === null) return notIssued(site, request.procedure)
  const { machine } = issued
  const on = request.on ?? at.slice(0, 10)
  const asked = requestFault(request, on, at)
  if (asked !== null) return asked
  const first = firstIssueDay(site, request.procedure) ?? on
  if (on < first) {
    return refused(
      'not-issued-yet',
      `The inspection is dated ${on}; ${request.procedure} was first issued here on ${first}.`,
      'Nobody could work by it before. Give the day on which it was inspected.'
    )
  }
  const uses = usesOf(site, request.procedure)
  if (request.watched !== undefined && !uses.some(({ run }) => run === request.watched)) {
    return refused(
      'no-such-run',
      `No run \`${request.watched}\` of ${request.procedure} is on record.`,
      'Look the run up with `audit`, or leave it out.'
    )
  }
  const from = periodStart(site, roster.value, request.procedure, on)
  const users = usersOf(uses, from, on)
  const ids = (list: readonly string[]): readonly PersonId[] => [...new Set(list)].map((id) => id as PersonId)
  const employees = ids(request.employees)
  const reviewed = ids(request.reviewed)
  const stranger = [...employees, ...reviewed].find((id) => personOf(roster.value, id) === null)
  if (stranger !== undefined) {
    return refused(
      'no-such-person',
      `Nobody on the roster has the id \`${stranger}\`.`,
      'Look the id up with `people list`.'
    )
  }
  const fault = inspectorFault(signer.person, on, machine, roster.value, users, employees)
  if (fault !== null) return refused('not-the-inspector', `The inspection was not signed: ${fault.why}.`, fault.mend)
  const person = personOf(roster.value, signer.person)
  if (person === null || publicBytesOf(signer.key) !== keyOf(person, at)?.key) {
    return refused(
      'not-their-key',
      `The key is not one with which \`${signer.person}\` can sign now.`,
      'Unlock the key of the person who inspected; one that was revoked signs nothing more.'
    )
  }
  const named = (list: readonly PersonId[]): readonly Inspected[] =>
    list.map((id) => ({ id, name: personOf(roster.value, id)?.name ?? id }))
  const inspection: Inspection = {
    format: 'lockwright-inspection/1',
    procedure: machine.procedure,
    revision: machine.revision,
    machine: issued.issue.machine,
    equipment: machine.equipment,
    on,
    from,
    watched: (request.watched ?? null) as RunId | null,
    employees: named(employees),
    reviewed: named(reviewed),
    outstanding: named([...users.keys()].filter((id) => !reviewed.includes(id))),
    deviations: request.deviations.map(({ found, corrected }) => ({
      found: found.trim(),
      corrected: corrected.trim()
    })),
    by: signer.person,
    name: person.name,
    at,
    meaning: inspectionMeaning
  }
  const file = join(layout.inspections(site), `${fileName(inspection)}.jws`)
  writeDurably(file, formatInspection(inspection, signer.key))
  return good({ inspection, file })
}

/** Since the last inspection, and for a year at the least: whoever worked by the procedure in that time uses it. */
function periodStart(site: Site, roster: Roster, procedure: string, on: string): string {
  const year = daysBefore(on, 365)
  const last = soundInspections(site, roster).sound.filter(
    (one) => one.inspection.procedure === procedure && one.inspection.on < on
  )
  const before = last
    .map((one) => one.inspection.on)
    .toSorted()
    .at(-1)
  return before !== undefined && before < year ? before : year
}

function requestFault({ employees, deviations }: InspectRequest, on: string, at: string): RecordsResult<never> | null {
  if (date(on) !== null) return refused('not-a-day', `\`${on}\` ${date(on)}.`, 'Give the day as 2026-03-02.')
  if (on > at.slice(0, 10)) {
    return refused(
      'not-yet',
      `The inspection is dated ${on}, which is still to come.`,
      'Sign it once it was performed.'
    )
  }
  if (employees.length === 0) {
    return refused(
      'nobody-inspected',
      'No employee is named who was included in the inspection (29 CFR 1910.147(c)(6)(ii)).',
      'Name each with --employee.'
    )
  }
  const open = deviations.find(({ found, corrected }) => found.trim() === '' || corrected.trim() === '')
  if (open === undefined) return null
  return refused(
    'not-corrected',
    `Of the deviation "${open.found}" it is not said what was done about it (29 CFR 1910.147(c)(6)(i)(B)).`,
    'Say after `=>` how it was corrected.'
  )
}

function usesOf(site: Site, procedure: string): readonly Use[] {
  return journalFiles(site).flatMap((file) => {
    const run = basename(file, '.jsonl')
    const { lines } = readChain(readFileSync(file), file, run)
    const entries = lines.flatMap(({ entry }) => (entry === null ? [] : [entry]))
    return entries[0]?.opens?.procedure === procedure ? usesIn(run, entries) : []
  })
}

function fileName({ on, procedure }: Inspection): string {
  const name = procedure
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .slice(0, 40)
  return `${on.replaceAll('-', '')}-${name}-${randomBytes(4).toString('hex')}`
}

function notIssued(site: Site, procedure: string): RecordsResult<never> {
  const file = layout.issued(site, '')
  return bad({
    id: 'not-issued',
    file: existsSync(file) ? file : '',
    what: `No procedure \`${procedure}\` was issued here.`,
    danger: 'The record would certify the inspection of a procedure that nobody released.',
    mend: 'Give the id of the procedure, as it stands at the top of its sheet, or have it issued.'
  })
}

function refused(id: string, what: string, mend: string): RecordsResult<never> {
  return bad({
    id,
    file: '',
    what,
    danger: 'A procedure would count as inspected though nobody who may looked at how it is followed.',
    mend
  })
}
