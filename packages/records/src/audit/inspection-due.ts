import type { Machine } from '@lockwright/machine'
import { type IssuedProcedure, type Standing, standingOf, tellCounting } from '../inspection/inspection-states.js'
import type { Use } from '../inspection/inspector-fault.js'
import { type InspectionFile, readInspections } from '../inspection/sound-inspections.js'
import type { Issue } from '../issue.js'
import type { Roster } from '../roster.js'
import type { InspectionState } from './report.js'
import { count, type Found } from './verdict.js'

/** A machine with a sound issue signature. */
export interface SoundIssue {
  readonly machine: Machine
  readonly issue: Issue
}

export interface InspectionsDue {
  readonly states: readonly InspectionState[]
  readonly found: readonly Found[]
  readonly checked: readonly string[]
}

/** Whether each issued procedure was inspected in time. `uses`: of the runs that were read, by procedure. */
export function inspectionsDue(
  issues: readonly SoundIssue[],
  files: readonly InspectionFile[],
  uses: ReadonlyMap<string, readonly Use[]>,
  roster: Roster,
  today: string
): InspectionsDue {
  const { sound, faults } = readInspections(files, roster)
  const standings = proceduresOf(issues).map((one) =>
    standingOf(one, sound, uses.get(one.machine.procedure) ?? [], roster, today)
  )
  const unsound = faults.map(
    ({ id, file, what, danger, mend }): Found => ({ id, weight: 'fault', seq: null, file, what, danger, mend })
  )
  const waiting = standings.filter(({ last, overdue }) => last === null && !overdue)
  return {
    states: standings.map(stateOf),
    found: [...unsound, ...standings.flatMap(foundOf)],
    checked: [
      `${count(standings.length, 'issued procedure')} against ${count(sound.length, 'signed inspection')} (29 CFR 1910.147(c)(6), at least annually: counted as no more than 365 days, or the procedure's own review period where that is shorter)`,
      ...waiting.map(
        ({ procedure, dueOn }) => `${procedure.machine.procedure} was not inspected yet; the first is due by ${dueOn}`
      )
    ]
  }
}

function proceduresOf(issues: readonly SoundIssue[]): readonly IssuedProcedure[] {
  const groups = new Map<string, SoundIssue[]>()
  for (const one of issues) groups.set(one.machine.procedure, [...(groups.get(one.machine.procedure) ?? []), one])
  return [...groups.values()]
    .map((group): IssuedProcedure => {
      const ordered = group.toSorted((a, b) => Date.parse(a.issue.at) - Date.parse(b.issue.at))
      const [first] = ordered as [SoundIssue]
      const last = ordered.at(-1) ?? first
      return {
        machine: last.machine,
        digest: last.issue.machine,
        firstIssued: first.issue.at,
        machines: new Map(group.map(({ machine, issue }) => [issue.machine, machine]))
      }
    })
    .toSorted((a, b) => (a.machine.procedure < b.machine.procedure ? -1 : 1))
}

function stateOf(standing: Standing): InspectionState {
  const { procedure, last, dueOn, overdue } = standing
  return {
    procedure: procedure.machine.procedure,
    revision: procedure.machine.revision,
    equipment: procedure.machine.equipment.tag,
    last: last === null ? null : { on: last.inspection.on, by: last.inspection.name, file: last.file },
    dueOn,
    counted: tellCounting(standing),
    overdue
  }
}

function foundOf(standing: Standing): readonly Found[] {
  const { procedure, last, notCounted, dueOn, overdue, used } = standing
  const { procedure: id, equipment } = procedure.machine
  const issued = `issued/${procedure.digest}.jws`
  const found: Found[] = notCounted.map(({ kept, why }) => ({
    id: 'inspection-not-counted',
    weight: 'fault',
    seq: null,
    file: kept.file,
    what: `The inspection of ${id} on ${kept.inspection.on} does not count: ${why}.`,
    danger: 'A habit that left the procedure would be looked at by those who have it.',
    mend: 'Have the procedure inspected by an authorized employee who does not work by it.'
  }))
  if (overdue) {
    found.push({
      id: last === null ? 'never-inspected' : 'inspection-overdue',
      weight: used ? 'fault' : 'doubt',
      seq: null,
      file: last?.file ?? issued,
      what: `${id} for ${equipment.tag} ${last === null ? 'was never inspected' : `was last inspected on ${last.inspection.on}, by ${last.inspection.name}`}; it was due by ${dueOn} (${tellCounting(standing)}).${used ? '' : ' By the runs that were read nobody worked by it since.'}`,
      danger: 'Habits that leave the procedure, and a procedure that no longer fits the equipment, stay unseen.',
      mend: used
        ? 'Have it inspected and signed with `inspect`.'
        : 'Have it inspected when it is used next, or withdraw it; whether a procedure that is not used may wait is for the rules of the plant.'
    })
  }
  const outstanding = last?.inspection.outstanding ?? []
  if (last !== null && outstanding.length > 0) {
    found.push({
      id: 'review-outstanding',
      weight: 'doubt',
      seq: null,
      file: last.file,
      what: `At the inspection of ${id} on ${last.inspection.on} responsibilities were not gone through with ${outstanding.map(({ id: person, name }) => `${name} (${person})`).join(', ')}, who worked by it.`,
      danger: 'Someone may not know what the procedure asks of them (29 CFR 1910.147(c)(6)(i)(C)).',
      mend: 'Go through it with them, and sign the inspection with them named.'
    })
  }
  return found
}
