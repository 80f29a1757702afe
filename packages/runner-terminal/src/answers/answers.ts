import type { Place } from '@lockwright/language'

/** Ticked boxes: all of them, or these numbers. */
export type Ticked = 'all' | readonly string[]

/** Somebody who comes with locks of their own, or leaves and takes them off. */
export interface Coming {
  readonly kind: 'joins' | 'leaves'
  readonly place: Place
  readonly person: string
  /** Point to the number on the lock; empty where somebody leaves. */
  readonly locks: ReadonlyMap<string, string>
  /** RFC 3339; null: when the step is answered. */
  readonly time: string | null
}

/** What one entry answers, as it stands in the file; `null` or empty where it says nothing. */
export interface StepAnswers {
  readonly kind: 'step'
  readonly place: Place
  /** State id or step id; empty where the number alone says it. */
  readonly at: string
  /** The step's number on the sheet; null where it is not given. */
  readonly number: number | null
  /** RFC 3339; when the step was done, or its wait begun. */
  readonly time: string | null
  /** RFC 3339; when the wait of the step was seen to be over; null: not said. */
  readonly ended: string | null
  /** Who came to work under the lockout, or left it, before the step. */
  readonly people: readonly Coming[]
  /** Who answers from here on; null: as before. */
  readonly by: string | null
  readonly ticks: Ticked
  /** Point to the number on its lock. */
  readonly locks: ReadonlyMap<string, string>
  /** Input id, label or source to the readings taken, one after the other; `''` stands for whatever is read. */
  readonly readings: ReadonlyMap<string, readonly string[]>
  /** Input id, label or source to the numbers of the instruments with which it is read, each for what it fits; `''` stands for whatever is read. */
  readonly with: ReadonlyMap<string, readonly string[]>
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
