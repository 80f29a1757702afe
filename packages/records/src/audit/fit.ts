import { type PersonId, type Snapshot, type State, stateOf } from '@lockwright/machine'
import type { Entry } from '../entry.js'
import { directorOf, directs, employer, roleFor } from '../may-do.js'
import type { Roster } from '../roster.js'
import { holdsAt, personOf } from '../roster-file.js'
import type { Evidence } from './evidence.js'
import { breaksFound } from './fit-breaks.js'
import { goneFound } from './fit-gone.js'
import { instrumentsFound } from './fit-instruments.js'
import { keysFound, provenBeforeTheft } from './fit-keys.js'
import { isInside, liveFound, liveReadings } from './live-readings.js'
import { count, type Found } from './verdict.js'

/** Whether the people were entitled to what they did, and the readings lie within their limits. */
export function fit(evidence: Evidence): { readonly found: readonly Found[]; readonly checked: readonly string[] } {
  const { roster, replay, machine } = evidence
  const issued = evidence.summary?.mode === 'issued'
  const found: Found[] = []
  const checked: string[] = []
  if (roster === null) found.push(noRoster)
  else {
    const people = new Set(evidence.entries.flatMap((entry) => peopleOf(entry)))
    checked.push(`${count(people.size, 'person', 'people')} looked up in the roster`)
    checked.push(...provenBeforeTheft(evidence))
    found.push(...strangers(evidence.entries, roster, issued), ...goneFound(evidence), ...keysFound(evidence))
  }
  found.push(...unsigned(evidence, issued))
  if (roster !== null) found.push(...undirected(evidence, roster))
  if (machine === null || replay === null) return { found: [...found, noMachine], checked }
  const taken = evidence.entries.slice(0, replay.snapshots.length - 1)
  if (taken.length < evidence.reading.lines.length) found.push(notAll(taken.length + 1))
  let roles = 0
  let readings = 0
  for (const [index, entry] of taken.entries()) {
    const before = replay.snapshots[index] as Snapshot
    const after = replay.snapshots[index + 1] as Snapshot
    const role = machine.roles.find((one) => one.id === roleFor(machine, entry.event, before))
    if (role !== undefined && role.holds.length > 0 && roster !== null) {
      roles += 1
      const person = personOf(roster, entry.by)
      if (person === null || !holdsAt(person, role.holds, entry.at)) found.push(unfit(entry, role.name, role.holds))
    }
    if (entry.event.kind === 'reading') readings += 1
    if (after.state !== before.state && (entry.event.kind === 'done' || entry.event.kind === 'finished')) {
      found.push(...outside(stateOf(machine, before.state), before, entry.seq))
    }
  }
  const live = liveReadings(evidence)
  found.push(...live.map(liveFound))
  const ask = count(roles, 'entry that asks', 'entries that ask')
  checked.push(`${ask} for a role, against the qualifications of that day`)
  const shown = live.length === 0 ? '' : `; ${live.length} of them live where it was to be dead`
  checked.push(`${count(readings, 'reading')} against the limits of the machine${shown}`)
  found.push(...breaksFound(evidence))
  const instruments = instrumentsFound(evidence)
  return { found: [...found, ...instruments.found], checked: [...checked, ...instruments.checked] }
}

function peopleOf(entry: Entry): readonly PersonId[] {
  const { event } = entry
  return [
    entry.by,
    ...(entry.entered === undefined ? [] : [entry.entered.by]),
    ...(event.kind === 'handed-over'
      ? [event.to]
      : event.kind === 'lock-removed'
        ? [event.owner, ...(event.absent?.directedBy === undefined ? [] : [event.absent.directedBy])]
        : [])
  ]
}

function strangers(entries: readonly Entry[], roster: Roster, issued: boolean): readonly Found[] {
  const seen = new Set<string>()
  const found: Found[] = []
  for (const entry of entries) {
    for (const id of peopleOf(entry)) {
      if (seen.has(id) || personOf(roster, id) !== null) continue
      seen.add(id)
      found.push({
        id: 'not-on-roster',
        weight: issued ? 'fault' : 'doubt',
        seq: entry.seq,
        what: `\`${id}\` is not on the roster.`,
        danger: 'It cannot be told who did this, nor whether that person was trained for it.',
        mend: 'Find out who it was.'
      })
    }
  }
  return found
}

/** A sign-off without a signature; on paper the ink stands on the sheet. */
function unsigned(evidence: Evidence, issued: boolean): readonly Found[] {
  return evidence.entries.flatMap((entry): readonly Found[] => {
    const asks = entry.event.kind === 'signed' || entry.event.kind === 'deviation'
    if (!asks || (entry.signature !== undefined && entry.entered === undefined)) return []
    const paper = entry.entered !== undefined
    return [
      {
        id: paper ? 'signed-on-paper' : 'not-signed',
        weight: issued && !paper ? 'fault' : 'doubt',
        seq: entry.seq,
        what: paper
          ? `\`${entry.by}\` signed this on paper, by what \`${entry.entered?.by}\` typed in.`
          : `\`${entry.by}\` answered for this without a signature.`,
        danger: 'Someone else may have given the word that work could go on.',
        mend: paper ? 'Look at the sheet that was signed.' : `Ask \`${entry.by}\`.`
      }
    ]
  })
}

/** 29 CFR 1910.147(e)(3): an absent owner's lock comes off under the direction of the employer alone. */
function undirected({ entries, summary }: Evidence, roster: Roster): readonly Found[] {
  if (summary?.mode === 'rehearsal') return []
  return entries.flatMap((entry): readonly Found[] => {
    const director = directorOf(entry)
    if (director === null || entry.event.kind !== 'lock-removed' || directs(roster, director, entry.at)) return []
    const { owner, point } = entry.event
    return [
      {
        id: 'lock-removal-undirected',
        weight: 'fault',
        seq: entry.seq,
        what: `The lock of \`${owner}\` on ${point} was taken off under the direction of \`${director}\`, for whom the roster does not show \`${employer}\` on ${entry.at.slice(0, 10)}.`,
        danger: 'Its owner may have come back to a machine that they took to be locked by their own lock.',
        mend: `Find out who directed it and why; tell \`${owner}\` before they go on working.`
      }
    ]
  })
}

function unfit(entry: Entry, role: string, holds: readonly string[]): Found {
  return {
    id: 'not-qualified',
    weight: 'fault',
    seq: entry.seq,
    what: `This asks for a ${role}. The roster does not show ${holds.map((held) => `\`${held}\``).join(' and ')} for \`${entry.by}\` on ${entry.at.slice(0, 10)}.`,
    danger: 'Someone who was not trained for it may have exposed themselves or others.',
    mend: 'Find out whether the person held it then; if so, have the roster put right, if not, have the work looked at.'
  }
}

/** Own arithmetic, beside that of `advance`. */
function outside(state: State, before: Snapshot, seq: number): readonly Found[] {
  return state.inputs.flatMap((input): readonly Found[] => {
    const reading = input.kind === 'reading' ? before.progress.readings[input.id] : undefined
    if (input.kind !== 'reading' || reading === undefined || isInside(reading.value, input.limits)) return []
    return [
      {
        id: 'out-of-limits',
        weight: 'fault',
        seq,
        what: `The step was passed with ${input.label} at ${reading.typed}, which lies outside its limits.`,
        danger: 'Energy may have been there where none was allowed.',
        mend: 'Find out what the reading was, and have the work looked at.'
      }
    ]
  })
}

const noRoster: Found = {
  id: 'no-roster',
  weight: 'doubt',
  seq: null,
  what: 'Without a sound roster nobody can be told to be qualified.',
  danger: 'Anyone could have done the work of a qualified person.',
  mend: 'Put the roster back.'
}

const noMachine: Found = {
  id: 'no-machine',
  weight: 'doubt',
  seq: null,
  what: 'Without the machine it cannot be told which steps asked for whom, and between which limits readings had to lie.',
  danger: 'A step may have been done by someone who was not qualified for it.',
  mend: 'Put the machine of that digest back into `issued/` or `drafts/`.'
}

const notAll = (seq: number): Found => ({
  id: 'not-all-looked-at',
  weight: 'doubt',
  seq,
  what: `From entry ${seq} on the run could not be replayed, so roles and readings were not looked at.`,
  danger: 'What was done from there on cannot be told.',
  mend: 'See what stands under `followed`.'
})
