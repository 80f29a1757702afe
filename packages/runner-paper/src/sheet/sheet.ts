import type { Axis, AxisId, AxisValue, Content, SectionId } from '@lockwright/language'
import type { Input, Machine, Span, State, StateId } from '@lockwright/machine'
import type { LeftAtStop } from './left-at-stops.js'

/** A machine as one reads it on paper: numbered steps under headings, each with where to go on. Nothing is drawn here. */
export interface Sheet {
  readonly machine: Machine
  /** The generations it is printed for; empty: all. */
  readonly chosen: readonly Chosen[]
  readonly parts: readonly SheetPart[]
  readonly steps: readonly SheetStep[]
  /** Every printed state to its step number; a state that passes of itself to the number it leads to. */
  readonly numbers: ReadonlyMap<StateId, number>
}

export interface Chosen {
  readonly axis: Omit<Axis, 'place'> & { readonly span: Span }
  readonly value: AxisValue
}

/** Steps that follow each other under one heading. */
export interface SheetPart {
  /** Headings that open here, outermost first; empty where the procedure has none. */
  readonly headings: readonly SheetHeading[]
  readonly steps: readonly SheetStep[]
}

export interface SheetHeading {
  readonly id: SectionId
  readonly level: number
  readonly title: string
  /** `again`: done once more as a copy; `continued`: gone on with after other sections. */
  readonly opens: 'first' | 'again' | 'continued'
  /** What stands under it where no step does. */
  readonly prose: readonly Content[]
}

export interface SheetStep {
  /** From 1, in reading order. */
  readonly number: number
  readonly state: State
  /** Prose before the step, less what stands under a heading of its own. */
  readonly intro: readonly Content[]
  /** Gates are done, repeated, or the work stops. */
  readonly gate: boolean
  /** The generations it is for; empty: all that the sheet is for. */
  readonly rails: readonly Rail[]
  /** What the state asks for, less what is absent on the chosen generations. */
  readonly inputs: readonly Input[]
  /** True where the step lies on a loop of steps, so that it can come more than once. */
  readonly again: boolean
  /** True where its reading may be taken once more on the spot. */
  readonly retake: boolean
  /** Later steps from which one is sent back to this one. */
  readonly backFrom: readonly number[]
  /** Steps that lead here, where the step printed before does not simply go on to it. */
  readonly onlyFrom: readonly number[]
  readonly ways: readonly Way[]
  /** How the equipment stands; null where the step is no stop. */
  readonly left: LeftAtStop | null
}

/** For these values of the axis only. */
export interface Rail {
  readonly axis: AxisId
  readonly values: readonly AxisValue[]
}

/** Where one goes on. `next` is true where that is simply the next step on the sheet. */
export interface Way {
  readonly on: 'done' | 'inside' | 'again' | 'outside' | 'answer' | 'identified' | 'value' | 'late'
  /** answer: its label; else empty. */
  readonly label: string
  /** answer: its id; else empty. */
  readonly answer: string
  /** identified and value: the generations that go this way. */
  readonly values: readonly AxisValue[]
  readonly says: readonly Content[]
  /** null: not for this sheet (another generation was found). */
  readonly to: number | null
  readonly next: boolean
}
