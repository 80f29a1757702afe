import type { Place } from '@lockwright/language'

/** Ticked boxes: all of them, or these numbers. */
export type Ticked = 'all' | readonly string[]

/** What one entry answers, as it stands in the file; `null` or empty where it says nothing. */
export interface StepAnswers {
  readonly kind: 'step'
  readonly place: Place
  /** State id or step id; empty where the number alone says it. */
  readonly at: string
  /** The step's number on the sheet that is printed for every generation; null where it is not given. */
  readonly number: number | null
  /** RFC 3339; when the step was done. */
  readonly time: string | null
  /** Who answers from here on; null: as before. */
  readonly by: string | null
  readonly ticks: Ticked
  /** Point to the number on its lock. */
  readonly locks: ReadonlyMap<string, string>
  /** Input id, label or source to the readings taken, one after the other; `''` stands for whatever is read. */
  readonly readings: ReadonlyMap<string, readonly string[]>
  /** The number of the instrument with which the readings are taken; null: not said. */
  readonly with: string | null
  /** Why what was to be dead was live, one reason a time. */
  readonly reasons: readonly string[]
  /** A reading that looks wrong is meant. */
  readonly sure: boolean
  readonly choose: string | null
  /** `no`: the run is closed here without a signature. */
  readonly sign: { readonly person: string | null; readonly passphraseFrom: string | null } | 'no' | null
  /** The wait was waited out. */
  readonly waited: boolean
  /** After a break: every lock was looked at and hangs. */
  readonly locksOn: boolean
  /** Typed on arriving, line by line, before anything else. */
  readonly type: readonly string[]
  /** Stops the work here, for this reason. */
  readonly stop: string | null
  /** In what condition the machine is left, where a stop asks. */
  readonly left: string | null
}

/** A line as it would be typed. */
export interface LineAnswer {
  readonly kind: 'line'
  readonly place: Place
  readonly line: string
}

export type Answer = StepAnswers | LineAnswer

/** A file of scripted answers, in the order in which they are given. */
export interface Answers {
  readonly file: string
  /** When the first answer is given and how long each takes; null: by the clock of the computer. */
  readonly clock: { readonly start: string; readonly paceSeconds: number } | null
  readonly answers: readonly Answer[]
}
