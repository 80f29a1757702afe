import { advance, type Event, type PersonId } from '@lockwright/machine'
import type { RunEvent, Signer } from '@lockwright/records'
import type { Question } from './desk.js'
import { type Interpreted, refuse, type Sitting } from './interpreted.js'
import { tidy } from './tidy.js'

export type WordQuestion = Extract<Question, { readonly kind: 'word' }>

/**
 * What a line means once everybody of whom something is to be recorded has given their word for it: in a run for work on
 * the real machine nobody at the keys takes another's lock off the record, hangs one or hands over in their name.
 */
export function withOwnWord(meant: Interpreted, sitting: Sitting): Interpreted {
  if (!sitting.vouch.needed) return meant
  if (meant.kind === 'person') {
    return meant.person === sitting.person && sitting.vouch.given
      ? meant
      : askWord(meant.person, { kind: 'comes' }, sitting)
  }
  if (meant.kind !== 'event' || meant.signer !== null) return meant
  const { event } = meant
  if (event.kind === 'left' && event.by !== sitting.person) return comesFirst(event.by)
  if (event.kind === 'handed-over' && !sitting.vouch.given) {
    return refuse(
      `\`${event.by}\` took this run up by name alone, and the locks of \`${event.by}\` come off with the handover.`,
      `Type \`as ${event.by}\` first: ${event.by} gives their word. Then hand over.`
    )
  }
  const person = wordOf(event, sitting)
  if (person === null) return meant
  // A passphrase is not asked for what would be refused in any case.
  const taken = advance(sitting.machine, sitting.snapshot, { ...event, at: sitting.snapshot.at } as Event)
  return taken.ok ? askWord(person, { kind: 'records', event }, sitting) : meant
}

/** Whose word an event wants that they have not given; null: nobody's. */
function wordOf(event: RunEvent, { person, vouch }: Sitting): PersonId | null {
  switch (event.kind) {
    case 'handed-over':
      return event.to
    case 'joined':
      return event.by === person ? null : event.by
    case 'left':
      return event.by === person && vouch.given ? null : event.by
    case 'lock-removed':
      return event.absent !== undefined || (event.by === person && vouch.given) ? null : event.by
    default:
      return null
  }
}

function comesFirst(person: PersonId): Interpreted {
  return refuse(
    `Nobody else takes the locks of \`${person}\` off the record.`,
    `\`${person}\` comes to the keys, with \`as ${person}\`, and types \`left ${person}\`. Where \`${person}\` is away, the lock stays on ` +
      'until the step at which locks come off; there, type `absent`.'
  )
}

function askWord(person: PersonId, gives: WordQuestion['gives'], { desk, keys }: Sitting): Interpreted {
  const by = keys?.has(person) === true ? 'passphrase' : 'name'
  return { kind: 'desk', desk: { ...desk, question: { kind: 'word', person, by, gives } } }
}

/** What is asked of whoever gives their word. */
export function wordAsks({ person, by, gives }: WordQuestion): string {
  const what = tellGiven(person, gives)
  return by === 'passphrase'
    ? `${person}: your passphrase, for ${what}`
    : `${person}: your full name, for ${what}. \`${person}\` has no key. Nothing proves it, and the record says so.`
}

function tellGiven(person: PersonId, gives: WordQuestion['gives']): string {
  if (gives.kind === 'comes') return `${person} answers from now on`
  switch (gives.event.kind) {
    case 'joined':
      return `${person} joins and has hung these locks`
    case 'handed-over':
      return `${person} takes over and has hung these locks`
    case 'lock-removed':
      return `${person} took the own lock off ${gives.event.point}`
    default:
      return `${person} leaves, and the own locks are off`
  }
}

/** The passphrase, or the name of whoever has no key; a wrong one is asked for again and is never repeated. */
export function giveWord(line: string, sitting: Sitting, question: WordQuestion): Interpreted {
  const { person, by, gives } = question
  if (by === 'name') {
    const name = sitting.vouch.nameOf(person)
    if (name !== null && tidy(name).toLowerCase() !== line.toLowerCase()) {
      return refuse(
        `That is not the name that the roster has for \`${person}\`.`,
        'Type the full name as it stands there.'
      )
    }
    const text = `${tellGiven(person, gives)}: by the typed name \`${name ?? line}\` alone. Nothing proves it.`
    return {
      kind: 'vouched',
      note: { kind: 'note', text, by: person },
      signer: null,
      next: follows(gives, person, null)
    }
  }
  const opened = sitting.keys?.open(person, line)
  if (opened === undefined) throw new Error('a passphrase is only asked for where there are keys')
  if (!opened.ok)
    return refuse(opened.why, opened.mend, opened.final === true ? { ...sitting.desk, question: null } : null)
  const then = follows(gives, person, opened.signer)
  if (then.kind === 'event' && then.event.by === person) return then
  const text = `${tellGiven(person, gives)}: by passphrase.`
  return { kind: 'vouched', note: { kind: 'note', text, by: person }, signer: opened.signer, next: then }
}

/** What somebody did by themselves is signed with their key, so that it can be proven later. */
function follows(gives: WordQuestion['gives'], person: PersonId, signer: Signer | null): Interpreted {
  if (gives.kind === 'comes') return { kind: 'person', person }
  const own = gives.event.by === person ? signer : null
  return { kind: 'event', event: gives.event, last: null, signer: own }
}
