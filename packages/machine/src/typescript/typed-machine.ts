import { advance } from '../advance.js'
import type { Event, Stamp } from '../event.js'
import type { Machine } from '../machine.js'
import type { Refusal, Snapshot } from '../snapshot.js'
import { start } from '../start.js'
import type { AnyTime } from './answer.js'

/** Where a run stands, with the state as a literal, so that a `switch` on it narrows what may be answered. */
export type At<State extends string> = Omit<Snapshot, 'state'> & { readonly state: State }

/** Every place where a run of this machine can stand. */
export type Standing<Answers> = { [State in keyof Answers & string]: At<State> }[keyof Answers & string]

/** The state where it is known to be one; nothing where it could be several. */
type One<State, All = State> = State extends unknown ? ([All] extends [State] ? State : never) : never

export type Stepped<Answers> =
  | { readonly ok: true; readonly snapshot: Standing<Answers> }
  | { readonly ok: false; readonly refusals: readonly [Refusal, ...Refusal[]] }

/** `start` and `advance` of one machine: an answer that the state does not ask for does not compile. */
export interface TypedMachine<Answers, First extends keyof Answers & string> {
  readonly machine: Machine
  readonly start: () => At<First>
  /** As `advance` of the package; a snapshot whose state is not yet known takes only what may happen anywhere. */
  readonly advance: <State extends keyof Answers & string>(
    snapshot: At<State>,
    event: AnyTime | (Stamp & Answers[One<State> & keyof Answers])
  ) => Stepped<Answers>
  /** A snapshot that was kept elsewhere; null where its state is none of this machine's. */
  readonly standing: (snapshot: Snapshot) => Standing<Answers> | null
}

/**
 * Binds a machine to the answers that its states ask for, as `build --as typescript` writes them.
 * The types are a promise of the generated module alone: the same `advance` still refuses what does not fit.
 */
export function typedMachine<Answers, First extends keyof Answers & string>(
  machine: Machine
): TypedMachine<Answers, First> {
  const ids = new Set<string>(machine.states.map((state) => state.id))
  return {
    machine,
    start: () => start(machine) as unknown as At<First>,
    advance: (snapshot, event) => advance(machine, snapshot as unknown as Snapshot, event as Event) as Stepped<Answers>,
    standing: (snapshot) => (ids.has(snapshot.state) ? (snapshot as unknown as Standing<Answers>) : null)
  }
}
