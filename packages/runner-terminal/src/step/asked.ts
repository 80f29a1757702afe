import type { PointId, RoleId, SourceId } from '@lockwright/language'
import {
  askedInputs,
  type CrewLock,
  type Input,
  type Machine,
  type MachineNotice,
  type Reading,
  type Snapshot,
  type State,
  stateOf
} from '@lockwright/machine'
import type { Recorded } from '../run-port.js'
import { type Confirmation, confirmationOf, doneWord } from './confirmation.js'
import type { Desk } from './desk.js'
import { type MissingLock, missingLocks } from './missing-lock.js'
import { type Option, optionsOf } from './options.js'

type InputOf<Kind extends Input['kind']> = Extract<Input, { readonly kind: Kind }>

/** A box of a step with the number that ticks it. */
export interface NumberedBox {
  readonly input: InputOf<'box'>
  readonly number: number
}

/** The one thing that is asked for next. */
export type Asked =
  | { readonly kind: 'nothing'; readonly ended: 'stopped' | 'finished' }
  /** After a break: do these locks still hang? */
  | {
      readonly kind: 'resume'
      readonly locks: readonly CrewLock[]
      /** Reported missing, and not known to hang again. */
      readonly missing: readonly MissingLock[]
      readonly confirm: Confirmation
    }
  /** After a break: verified once more. `input`: how it was read; null where it was tried by hand. */
  | {
      readonly kind: 'prove-again'
      readonly source: SourceId
      readonly input: InputOf<'reading'> | null
      readonly confirm: Confirmation
    }
  | { readonly kind: 'notice'; readonly notice: MachineNotice; readonly confirm: Confirmation }
  /** Any of these, by their numbers. */
  | { readonly kind: 'boxes'; readonly boxes: readonly [NumberedBox, ...NumberedBox[]] }
  | { readonly kind: 'lock'; readonly point: PointId }
  | { readonly kind: 'unlock'; readonly point: PointId; readonly lock: CrewLock }
  | {
      readonly kind: 'reading'
      readonly input: InputOf<'reading'>
      readonly last: Reading | null
      readonly mayGoOutside: boolean
    }
  | { readonly kind: 'start-wait'; readonly input: InputOf<'wait'>; readonly confirm: Confirmation }
  | { readonly kind: 'waiting'; readonly input: InputOf<'wait'>; readonly startedAt: string; readonly until: string }
  | { readonly kind: 'choose'; readonly options: readonly Option[] }
  | { readonly kind: 'sign'; readonly role: RoleId; readonly meaning: string }
  /** `looks`: something is looked at, and can be found not to be as the step says. */
  | { readonly kind: 'done'; readonly confirm: Confirmation; readonly looks: boolean }

/** What is asked next: notices first, then the inputs in the order of the machine, then that it was done. */
export function askedNext(machine: Machine, snapshot: Snapshot, desk: Desk, entries: readonly Recorded[] = []): Asked {
  if (snapshot.status === 'stopped' || snapshot.status === 'finished') {
    return { kind: 'nothing', ended: snapshot.status }
  }
  const state = stateOf(machine, snapshot.state)
  const turn = machine.states.indexOf(state) + desk.acknowledged.length
  const confirm = (word: string): Confirmation => confirmationOf(word, turn, desk.last)
  if (snapshot.status === 'paused' || desk.takenUp)
    return {
      kind: 'resume',
      locks: snapshot.locks,
      missing: missingLocks(snapshot, entries),
      confirm: confirm(snapshot.locks.length === 0 ? 'go on' : 'locks on')
    }
  const [again] = snapshot.recheck
  if (again !== undefined) {
    return { kind: 'prove-again', source: again, input: readingOf(machine, again), confirm: confirm('proven') }
  }
  const notice = state.notices.find(({ id }) => !desk.acknowledged.includes(id))
  if (notice !== undefined) return { kind: 'notice', notice, confirm: confirm('read') }
  return askedInput(machine, snapshot, desk, state, confirm) ?? askedLast(machine, state, confirm)
}

/** Boxes of a state with their numbers, ticked or not. */
export function boxesOf(machine: Machine, snapshot: Snapshot, state: State): readonly NumberedBox[] {
  return askedInputs(machine, snapshot.ledger, state)
    .filter((input) => input.kind === 'box')
    .map((input, index) => ({ input, number: index + 1 }))
}

/** The first input that is not answered yet; undefined where all are. */
function askedInput(
  machine: Machine,
  snapshot: Snapshot,
  desk: Desk,
  state: State,
  confirm: (word: string) => Confirmation
): Asked | undefined {
  const inputs = askedInputs(machine, snapshot.ledger, state)
  const boxes = boxesOf(machine, snapshot, state)
  for (const [index, input] of inputs.entries()) {
    switch (input.kind) {
      case 'box': {
        if (desk.boxes.includes(input.id)) break
        const group = inputs.slice(index)
        const end = group.findIndex(({ kind }) => kind !== 'box')
        const ids = (end === -1 ? group : group.slice(0, end)).map(({ id }) => id)
        const [first, ...others] = boxes.filter(({ input: { id } }) => ids.includes(id) && !desk.boxes.includes(id))
        if (first !== undefined) return { kind: 'boxes', boxes: [first, ...others] }
        break
      }
      case 'lock':
        if (!snapshot.locks.some(({ point }) => point === input.point)) return { kind: 'lock', point: input.point }
        break
      case 'unlock': {
        const lock = snapshot.locks.find(({ point }) => point === input.point)
        if (lock !== undefined) return { kind: 'unlock', point: input.point, lock }
        break
      }
      case 'reading': {
        const last = snapshot.progress.readings[input.id] ?? null
        if (last?.inside !== true) {
          const mayGoOutside = last !== null && state.exits.some((exit) => exit.on === 'outside')
          return { kind: 'reading', input, last, mayGoOutside }
        }
        break
      }
      case 'wait': {
        const wait = snapshot.progress.waits[input.id]
        if (wait === undefined) return { kind: 'start-wait', input, confirm: confirm('start') }
        if (!wait.over) {
          return { kind: 'waiting', input, startedAt: wait.startedAt, until: later(wait.startedAt, input.seconds) }
        }
        break
      }
    }
  }
  return undefined
}

function askedLast(machine: Machine, state: State, confirm: (word: string) => Confirmation): Asked {
  switch (state.kind) {
    case 'ask':
    case 'identify':
      return { kind: 'choose', options: optionsOf(machine, state) }
    case 'signoff':
      return { kind: 'sign', role: state.role, meaning: state.meaning }
    default:
      return {
        kind: 'done',
        confirm: confirm(doneWord(state.kind)),
        looks: state.kind === 'lamp' || state.kind === 'look'
      }
  }
}

/** How a source was read when it was last to be proven; by an instrument wherever any step does so. */
export function readingOf(machine: Machine, source: SourceId): InputOf<'reading'> | null {
  for (const state of machine.states) {
    for (const input of state.inputs) {
      if (input.kind === 'reading' && input.source === source) return input
    }
  }
  return null
}

/** RFC 3339, so many seconds on; milliseconds are kept. */
export function later(at: string, seconds: number): string {
  return new Date(Date.parse(at) + seconds * 1000).toISOString()
}
