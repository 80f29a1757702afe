import {
  type Machine,
  type MachineNotice,
  type PersonId,
  type Snapshot,
  type State,
  stateOf
} from '@lockwright/machine'
import type { RunMode } from '@lockwright/records'
import type { Recorded } from '../run-port.js'
import { waitEnds } from '../session/due.js'
import { clockTime } from '../text/clock-time.js'
import { prose } from '../text/prose.js'
import { visible } from '../text/visible.js'
import { againOnResuming, whyAgain } from './again.js'
import { askedNext, boxesOf, type NumberedBox } from './asked.js'
import { decaysOf } from './decays.js'
import type { Desk } from './desk.js'
import { energiesOf } from './energies.js'
import { tellLimits } from './limits.js'
import { type LiveReading, liveNotice, liveReadingOf } from './live-reading.js'
import { missingLocks, tellMissing } from './missing-lock.js'
import { questionOf } from './question.js'
import type { Countdown, Screen, ShownBox, ShownNotice } from './screen.js'
import { tellEntry } from './tell-entry.js'
import { wayOf } from './way.js'

/** What a screen is made of. */
export interface Shown {
  readonly machine: Machine
  readonly snapshot: Snapshot
  readonly desk: Desk
  readonly person: PersonId
  readonly mode: RunMode
  /** Everything on record, from the opening on. */
  readonly entries: readonly Recorded[]
  readonly warnings: readonly string[]
  readonly guide: readonly string[]
  /** Milliseconds by which the wall clock was set on since a wait was begun. */
  readonly setOnSince: (startedAt: string) => number
  /** The clock is that of a rehearsal: a wait can be passed by. */
  readonly skips: boolean
}

/** The screen for where a run stands: a pure function of what is recorded and what lies on the desk. */
export function present(shown: Shown): Screen {
  const { machine, snapshot, desk, person, mode, entries, warnings, guide, skips } = shown
  const state = stateOf(machine, snapshot.state)
  const asked = askedNext(machine, snapshot, desk, entries)
  const unread = asked.kind === 'notice' ? state.notices.slice(state.notices.indexOf(asked.notice)) : []
  const stepShown = asked.kind !== 'notice' && asked.kind !== 'resume' && asked.kind !== 'prove-again'
  const live = liveOf(snapshot, state, desk, stepShown)
  const section = machine.sections.find(({ id }) => id === state.section)
  return {
    procedure: visible(`${machine.procedure} rev ${machine.revision}: ${machine.title}`),
    equipment: visible(`${machine.equipment.tag} ${machine.equipment.name}, ${machine.equipment.place}`),
    mode: mode === 'issued' ? null : mode.toUpperCase(),
    person: visible(person),
    section: section === undefined ? null : visible(section.title),
    title: visible(state.title),
    kind: state.kind,
    way: wayOf(machine, snapshot),
    notices: live === null ? unread.slice(0, 1).map(shownNotice) : [liveNotice(machine, live)],
    body: stepShown ? bodyOf(machine, state) : bodyOfBreak(shown, asked),
    boxes: stepShown ? boxesOf(machine, snapshot, state).map((box) => shownBox(box, desk)) : [],
    answered: stepShown ? answeredOf(snapshot, state) : [],
    countdowns: countdownsOf(shown, state),
    decays: decaysOf(machine, snapshot, entries),
    warnings: [...missingLocks(snapshot, entries).map(tellMissing), ...warnings].map(visible),
    guide: stepShown ? guide.map(visible) : [],
    ...questionOf({ machine, snapshot, desk, person, asked, skips }),
    energies: energiesOf(machine, snapshot),
    locks: snapshot.locks.map(({ point, lock, person }) => visible(`${point}: lock ${lock} of ${person}`)),
    locksInShort: [...new Set(snapshot.locks.map((hung) => hung.person))].map((owner) => {
      const theirs = snapshot.locks.filter((hung) => hung.person === owner)
      return visible(`${owner} ${theirs.map(({ point, lock }) => `${point}=${lock}`).join(' ')}`)
    }),
    crew: snapshot.crew.map(visible)
  }
}

/** Where exactly the run stands, and what has to be shown anew; a notice is read before its step is seen. */
function bodyOfBreak(
  { machine, snapshot, entries, person }: Shown,
  asked: ReturnType<typeof askedNext>
): readonly string[] {
  if (asked.kind === 'prove-again') {
    const left = snapshot.recheck.map(visible).join(', ')
    return [visible(`Because ${whyAgain(machine, entries, asked.source)}.`), `Still to be proven again: ${left}`]
  }
  if (asked.kind !== 'resume') return []
  const last = entries.at(-1)
  return [
    ...(last === undefined
      ? []
      : [visible(`Last on record: ${tellEntry(machine, last)}, ${clockTime(last.at)}, by ${last.by}`)]),
    ...againOnResuming(machine, snapshot, entries, person)
  ]
}

/** What was to be dead and is not, for as long as it was not measured again. */
function liveOf(snapshot: Snapshot, state: State, { question }: Desk, stepShown: boolean): LiveReading | null {
  if (question?.kind === 'live-reason') return question
  if (!stepShown) return null
  const live = state.inputs.map((input) => (input.kind === 'reading' ? liveReadingOf(snapshot, input) : null))
  return live.find((one) => one !== null) ?? null
}

function shownNotice({ word, label, body }: MachineNotice): ShownNotice {
  return { word: word.toUpperCase(), label: visible(label), body: prose(body) }
}

function shownBox({ input, number }: NumberedBox, desk: Desk): ShownBox {
  return { number, text: boxText(input), ticked: desk.boxes.includes(input.id) }
}

/** Every box has words of its own; the fixed ones carry what they are about. */
export function boxText({ of, text }: NumberedBox['input']): string {
  switch (of) {
    case 'item':
      return visible(text)
    case 'tester-before':
      return visible(`Before: the tester works on a known live source${text === '' ? '' : ` (${text})`}`)
    case 'tester-after':
      return visible(`After: the tester still works on the known live source${text === '' ? '' : ` (${text})`}`)
    case 'trial':
      return visible(`Tried: ${text} does not move`)
  }
}

/** Prose and facts of the step; its lists are left out, because they are its boxes. */
function bodyOf(machine: Machine, state: State): readonly string[] {
  const role = machine.roles.find(({ id }) => id === state.role)
  const name = (id: string): string => machine.items.find((item) => item.id === id)?.label ?? id
  const tools = 'with' in state ? state.with : []
  return [
    ...prose(state.intro),
    ...prose(state.body.filter(({ kind }) => kind !== 'list')),
    ...factsOf(machine, state),
    ...(role === undefined ? [] : [`Who: ${role.name}`]),
    ...(tools.length === 0 ? [] : [`With: ${tools.map(name).join('; ')}`]),
    ...(state.wear.length === 0 ? [] : [`Wear: ${state.wear.map(name).join('; ')}`]),
    ...(state.minutes === null ? [] : [`Usually ${state.minutes} min`])
  ].map(visible)
}

/** What the declarations say about the things that the step names. */
function factsOf(machine: Machine, state: State): readonly string[] {
  switch (state.kind) {
    case 'isolate':
    case 'lock':
    case 'unlock':
    case 'energize':
      return state.points.flatMap((id) => {
        const point = machine.points.find((candidate) => candidate.id === id)
        if (point === undefined) return []
        const safe = state.kind === 'lock' || state.kind === 'isolate' ? `; safe position: ${point.safe}` : ''
        return [`${point.id}: ${point.is}, ${point.where}${safe}`]
      })
    case 'restrain':
    case 'remove':
      return state.restraints.flatMap((id) => {
        const restraint = machine.restraints.find((candidate) => candidate.id === id)
        return restraint === undefined ? [] : [`${restraint.id}: ${restraint.is}, holds ${restraint.holds.join(', ')}`]
      })
    case 'signoff':
      return [`Meaning of the signature: ${state.meaning}`]
    case 'stop':
      return [`Stop: ${state.reason}`, ...(state.tell === null ? [] : [`Tell: ${state.tell}`])]
    case 'live':
    case 'work':
    case 'measure':
      return state.why === null ? [] : [`Why with power on: ${state.why}`]
    default:
      return []
  }
}

function answeredOf(snapshot: Snapshot, state: State): readonly string[] {
  return state.inputs.flatMap((input): readonly string[] => {
    switch (input.kind) {
      case 'lock':
        return snapshot.locks
          .filter(({ point }) => point === input.point)
          .map(({ lock, person }) => visible(`${input.point}: lock ${lock} of ${person} hangs`))
      case 'unlock':
        return snapshot.progress.unlocked.includes(input.point) ? [visible(`${input.point}: lock is off`)] : []
      case 'reading': {
        const reading = snapshot.progress.readings[input.id]
        if (reading === undefined) return []
        const verdict = reading.inside ? 'within limits' : `OUT OF LIMITS (${tellLimits(input)})`
        return [visible(`${input.label}: ${reading.typed}, ${verdict}`)]
      }
      case 'wait':
        return snapshot.progress.waits[input.id]?.over === true ? ['The wait is over'] : []
      case 'box':
        return []
    }
  })
}

function countdownsOf({ machine, snapshot, setOnSince }: Shown, state: State): readonly Countdown[] {
  const waits = state.inputs.flatMap((input): readonly Countdown[] => {
    const wait = input.kind === 'wait' ? snapshot.progress.waits[input.id] : undefined
    if (input.kind !== 'wait' || wait === undefined || wait.over) return []
    const until = waitEnds(wait.startedAt, input.seconds, setOnSince)
    return [{ what: 'Wait until', startedAt: wait.startedAt, until }]
  })
  const clocks = machine.states.flatMap((state): readonly Countdown[] => {
    const until = state.kind === 'timer' ? snapshot.deadlines[state.id] : undefined
    if (state.kind !== 'timer' || until === undefined) return []
    const startedAt = new Date(Date.parse(until) - state.seconds * 1000).toISOString()
    return [{ what: 'To be done by', startedAt, until }]
  })
  return [...waits, ...clocks]
}
