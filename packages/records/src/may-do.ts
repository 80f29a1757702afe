import { type Machine, type PersonId, type Snapshot, type State, stateOf } from '@lockwright/machine'
import type { BareEvent, Entry, SignatureNote } from './entry.js'
import { coordinator } from './issue.js'
import type { LiveRun } from './live-run.js'
import { publicBytesOf } from './public-key.js'
import type { PersonKey, Roster } from './roster.js'
import { holdsAt, personOf, readRoster } from './roster-file.js'
import { keyDoubt, keysOf, tellEnd } from './roster-keys.js'
import type { RunRefusal, Signer } from './run-types.js'

type Grounds = Pick<LiveRun, 'site' | 'machine' | 'mode' | 'enteredBy'>

/** A sign-off of an issued run is nothing without a signature. On paper the ink was the signature. */
export function needsSignature(run: Grounds, event: BareEvent): boolean {
  return run.mode === 'issued' && run.enteredBy === null && (event.kind === 'signed' || event.kind === 'deviation')
}

/**
 * Why this person may not do this step: the role that the step or the sign-off asks for holds qualifications that the
 * roster does not show for that day. Paper tells what has been; there the audit says so.
 */
export function mayDo(run: Grounds, entry: Entry, snapshot: Snapshot): readonly RunRefusal[] {
  if (run.mode !== 'issued' || run.enteredBy !== null) return []
  return [...mayAct(run, entry), ...mayFill(run, entry, snapshot), ...mayDirect(run, entry)]
}

/** Whoever does not work here any more starts nothing and is brought on by nobody; getting out is open to all. */
function mayAct(run: Grounds, entry: Entry): readonly RunRefusal[] {
  // A signature is refused for the key itself, which says more.
  const acting = needsSignature(run, entry.event) ? [] : actingIn(entry)
  if (acting.length === 0) return []
  const roster = readRoster(run.site)
  if (!roster.ok) return [notQualified(roster.faults[0].what, roster.faults[0].mend)]
  return acting.flatMap((id) => {
    const ended = goneAt(roster.value, id, entry.at)
    if (ended === null) return []
    return [
      notQualified(
        `\`${id}\` may not work here any more: their key ${tellEnd(ended)}.`,
        'Have it done by someone who works here. If they do, have a new key entered for them with `people rotate`. Who has a lock on may leave, hand over, or take it off.'
      )
    ]
  })
}

/** Everyone who acts by an entry; none where somebody only gets out, makes it safe, or says something. */
export function actingIn({ by, event, entered }: Entry): readonly PersonId[] {
  const typist = entered === undefined ? [] : [entered.by]
  switch (event.kind) {
    case 'left':
    case 'note':
    case 'paused':
    case 'stopped':
      return typist
    case 'handed-over':
      return [event.to, ...typist]
    case 'lock-removed':
      return event.owner === by ? typist : [by, ...typist]
    default:
      return [by, ...typist]
  }
}

/** The key of someone who had left, or whose key had been revoked with no other given, by that time; null: may work. */
export function goneAt(roster: Roster, id: PersonId, at: string): PersonKey | null {
  const person = personOf(roster, id)
  const last = person === null ? undefined : keysOf(person).at(-1)
  if (last === undefined || last.until === null || Date.parse(at) < Date.parse(last.until)) return null
  return last.because === 'left' || last.because === 'revoked' ? last : null
}

/** Whether a lock that another person hung comes off under the direction of the employer: 29 CFR 1910.147(e)(3). */
function mayDirect(run: Grounds, entry: Entry): readonly RunRefusal[] {
  const director = directorOf(entry)
  if (director === null) return []
  const roster = readRoster(run.site)
  if (!roster.ok) return [notQualified(roster.faults[0].what, roster.faults[0].mend)]
  if (directs(roster.value, director, entry.at)) return []
  return [
    notQualified(
      `A lock that somebody else hung comes off only under the direction of the employer. The roster does not show \`${employer}\` for \`${director}\` today.`,
      `Have someone direct it who holds \`${employer}\`, and name them.`
    )
  ]
}

/** Qualification of whoever directs for the employer that a lock of an absent person is taken off. */
export const employer = coordinator

/** Who answers for taking off a lock that somebody else hung; null: it is no such entry. */
export function directorOf({ by, event }: Entry): PersonId | null {
  if (event.kind !== 'lock-removed' || event.owner === by) return null
  return event.absent?.directedBy ?? by
}

/** Whether that person could direct it on that day. */
export function directs(roster: Roster, director: PersonId, at: string): boolean {
  const person = personOf(roster, director)
  return person !== null && holdsAt(person, [employer], at)
}

function mayFill(run: Grounds, entry: Entry, snapshot: Snapshot): readonly RunRefusal[] {
  const role = roleFor(run.machine, entry.event, snapshot)
  if (role === null) return []
  const declared = run.machine.roles.find((one) => one.id === role)
  if (declared === undefined || declared.holds.length === 0) return []
  const roster = readRoster(run.site)
  if (!roster.ok) return [notQualified(roster.faults[0].what, roster.faults[0].mend)]
  const person = personOf(roster.value, entry.by)
  if (person !== null && holdsAt(person, declared.holds, entry.at)) return []
  const missing = declared.holds.map((held) => `\`${held}\``).join(' and ')
  return [
    notQualified(
      `This asks for a ${declared.name}. The roster does not show ${missing} for \`${entry.by}\` today.`,
      'Have it done by someone who holds it, or stop.'
    )
  ]
}

/** The role that answers for an event; null: anyone of the crew. */
export function roleFor(machine: Machine, event: BareEvent, snapshot: Snapshot): State['role'] {
  switch (event.kind) {
    case 'signed':
    case 'deviation':
      return event.role
    case 'done':
    case 'reading':
    case 'choice':
    case 'lock-hung':
    case 'lock-removed':
      return stateOf(machine, snapshot.state).role
    case 'opened':
    case 'wait-started':
    case 'wait-over':
    case 'late':
    case 'joined':
    case 'left':
    case 'handed-over':
    case 'note':
    case 'attachment':
    case 'paused':
    case 'resumed':
    case 'proven-again':
    case 'stopped':
    case 'finished':
      return null
  }
}

/** What a signature under this entry says; or why the signer may not sign it. */
export function maySign(
  run: Grounds,
  entry: Entry,
  signer: Signer
): { readonly ok: true; readonly value: SignatureNote } | { readonly ok: false; readonly refusal: RunRefusal } {
  const owner = run.enteredBy ?? entry.by
  const at = entry.entered?.at ?? entry.at
  const refuse = (why: string) => ({ ok: false as const, refusal: wrongKey(why) })
  if (signer.person !== owner) return refuse(`\`${signer.person}\` cannot sign what \`${owner}\` answers for.`)
  const roster = readRoster(run.site)
  if (!roster.ok) return refuse(roster.faults[0].what)
  const person = personOf(roster.value, signer.person)
  const doubt = person === null ? null : keyDoubt(person, publicBytesOf(signer.key), at)
  if (person === null || doubt?.kind === 'not-theirs') {
    return refuse(`The key is not the one that the roster has for \`${signer.person}\`.`)
  }
  if (doubt !== null) {
    return refuse(
      doubt.kind === 'ended'
        ? `The key of \`${signer.person}\` ${tellEnd(doubt.key)}.`
        : `The key of \`${signer.person}\` is not in force yet by the clock of this computer.`
    )
  }
  const meaning = meaningOf(entry.event)
  return {
    ok: true,
    value: {
      by: signer.person,
      name: person.name,
      at,
      meaning: run.enteredBy === null ? meaning : `Entered from paper: ${meaning}`
    }
  }
}

/** The meaning of a signature under an event, as it is printed beside the name. */
export function meaningOf(event: BareEvent): string {
  if (event.kind === 'signed') return event.meaning
  if (event.kind === 'deviation') return `Done differently: ${event.reason}`
  if (event.kind === 'stopped') return `Stopped: ${event.reason}`
  if (event.kind === 'finished') return 'Returned to service'
  return 'Answered for'
}

function notQualified(why: string, mend: string): RunRefusal {
  return { kind: 'not-qualified', obligation: null, why, mend }
}

function wrongKey(why: string): RunRefusal {
  return { kind: 'no-key', obligation: null, why, mend: 'Have the right person unlock their own key and sign.' }
}
