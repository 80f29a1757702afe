import type { StateKind } from '@lockwright/machine'
import type { ShownDecay } from './decays.js'
import type { Energy } from './energies.js'
import type { Way } from './way.js'

/** One thing that can be typed now, and what it does. */
export interface Key {
  readonly type: string
  readonly does: string
}

/** A safety message. */
export interface ShownNotice {
  /** `DANGER`, `WARNING`, `CAUTION` or `NOTICE`. */
  readonly word: string
  readonly label: string
  readonly body: readonly string[]
}

export interface ShownBox {
  readonly number: number
  readonly text: string
  readonly ticked: boolean
}

/** A clock that runs: a wait, or the time of a `within` block. */
export interface Countdown {
  readonly what: string
  readonly startedAt: string
  readonly until: string
}

/** Text that is read in place of the step until it is put away: help, why, the whole procedure. */
export interface Page {
  readonly title: string
  readonly lines: readonly string[]
}

/**
 * Everything that a shell shows, in the order in which it is shown; every text in it is visible already.
 * Both shells draw the same model, so that the same words come in the same order.
 */
export interface Screen {
  readonly procedure: string
  readonly equipment: string
  /** `DRAFT` or `REHEARSAL`; null for an issued procedure. */
  readonly mode: string | null
  /** Who answers now. */
  readonly person: string
  readonly section: string | null
  readonly title: string
  readonly kind: StateKind
  readonly way: Way
  readonly energies: readonly Energy[]
  readonly locks: readonly string[]
  /** The same in fewest words: each person with their points and numbers. */
  readonly locksInShort: readonly string[]
  readonly crew: readonly string[]
  /** What is not as it should be whatever the step is, such as a lock that hangs for longer than a shift. */
  readonly warnings: readonly string[]
  readonly countdowns: readonly Countdown[]
  /** While any is left to be read, the step itself stays back. */
  readonly notices: readonly ShownNotice[]
  readonly body: readonly string[]
  readonly boxes: readonly ShownBox[]
  readonly answered: readonly string[]
  readonly decays: readonly ShownDecay[]
  /** In a rehearsal along a given way: what that way does here. */
  readonly guide: readonly string[]
  readonly question: string
  readonly keys: readonly Key[]
  /** A command such as `stop` is taken now; not while a question of the runner's own is open. */
  readonly commands: boolean
  /** The line to be typed is a passphrase. */
  readonly secret: boolean
  /** Typing this one key answers at once, without Enter; null where none does. */
  readonly oneKey: string | null
}
