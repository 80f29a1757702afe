import type { CurvePlot } from '@lockwright/energy'
import type { Content, Runs } from '@lockwright/language'
import type { StateKind } from '@lockwright/machine'
import type { FormField } from '../form/form-field.js'

/** What is printed, in order, before anything is measured: plain data. */
export type Block =
  | TitleBlock
  /** `newPage`: what it opens can be taken out of the sheet and filed by itself. */
  | { readonly kind: 'heading'; readonly level: 1 | 2 | 3; readonly text: string; readonly newPage?: true }
  | { readonly kind: 'content'; readonly content: readonly Content[] }
  /** Framed lines, each with a dash. */
  | { readonly kind: 'panel'; readonly heading: string; readonly lines: readonly Runs[] }
  | TableBlock
  /** Boxes with a text each, in columns under a small heading. */
  | { readonly kind: 'ticks'; readonly heading: string; readonly items: readonly Tick[] }
  /** Decay curves, so many beside each other. */
  | { readonly kind: 'plots'; readonly across: 1 | 2; readonly plots: readonly PlotBlock[] }
  | { readonly kind: 'legend'; readonly entries: readonly { readonly shape: LegendShape; readonly text: string }[] }
  | FlowBlock
  | { readonly kind: 'step'; readonly card: Card }

export interface TitleBlock {
  readonly kind: 'title'
  readonly kicker: string
  readonly title: string
  readonly facts: readonly { readonly label: string; readonly value: string }[]
  /** What the QR code holds. */
  readonly code: string
  readonly codeAlternate: string
}

/** `blanks`: to write in under its text. */
export interface Tick {
  readonly text: Runs
  readonly blanks: readonly Blank[]
  readonly field?: FormField
}

export interface PlotBlock {
  readonly plot: CurvePlot
  readonly caption: Runs
  /** What it shows, for those who do not see it. */
  readonly alternate: string
}

export interface TableBlock {
  readonly kind: 'table'
  readonly columns: readonly { readonly head: string; readonly share: number }[]
  readonly rows: readonly (readonly Cell[])[]
  /** Rows to write in are taller. */
  readonly writing: boolean
  /** Stays on the page of what comes after it. */
  readonly keepNext?: true
  /** By row and column, what is filled in; null where something is printed. */
  readonly fields?: readonly (readonly (FormField | null)[])[]
}

/** The map of the procedure, read from top to bottom. */
export interface FlowBlock {
  readonly kind: 'flow'
  readonly rows: readonly FlowRow[]
  /** How the map is read. */
  readonly tell: string
  readonly alternate: string
}

export type FlowRow =
  | { readonly kind: 'heading'; readonly text: string }
  /** `falls`: one simply goes on to the step below. */
  | {
      readonly kind: 'node'
      readonly number: number
      readonly title: string
      readonly shape: CardShape | 'finish'
      readonly rail: string
      readonly falls: boolean
    }
  /** One way on from the step above; null: it leads off this sheet. */
  | {
      readonly kind: 'exit'
      readonly from: number
      readonly text: string
      readonly to: number | null
      readonly next: boolean
    }

/** Lines one under the other; none: a place to write in. */
export type Cell = readonly Runs[]

export type LegendShape = 'gate' | 'step' | 'box' | 'circle' | 'rail' | 'way'

/** How a step is set: by shape alone, never by color alone. */
export type CardShape = 'gate' | 'plain' | 'choice' | 'live' | 'stop'

/** One step as printed. */
export interface Card {
  readonly number: number
  readonly title: string
  /** How the step is called where the sheet is entered; empty where nothing is entered for it. */
  readonly name: string
  readonly kind: StateKind
  readonly bar: string
  readonly shape: CardShape
  /** For which generations; empty: all of the sheet's. */
  readonly rail: string
  readonly intro: readonly Content[]
  readonly notices: readonly NoticeBlock[]
  readonly rows: readonly Row[]
  /** Room for initials and time. */
  readonly signed: boolean
  /** How many times there is room for. */
  readonly times: number
  readonly initials?: FormField
  readonly time?: FormField
}

export interface NoticeBlock {
  readonly word: 'danger' | 'warning' | 'caution' | 'notice'
  readonly signal: string
  readonly label: string
  readonly body: readonly Content[]
  /** The box for "read and understood". */
  readonly field?: FormField
}

export type Row =
  | { readonly kind: 'content'; readonly content: readonly Content[] }
  /** A fixed remark in small type. */
  | { readonly kind: 'remark'; readonly text: Runs }
  /** Something to tick, to write in, or both. */
  | {
      readonly kind: 'entry'
      readonly mark: 'box' | 'circle' | 'none'
      readonly content: readonly Content[]
      readonly blanks: readonly Blank[]
      readonly field?: FormField
    }
  | { readonly kind: 'readings'; readonly caption: string; readonly cells: readonly ReadingCell[] }
  /** One way on; `go` says where. `mark` is a circle where it is one of several. */
  | {
      readonly kind: 'way'
      readonly mark: 'circle' | 'none'
      readonly text: Runs
      readonly says: readonly Content[]
      readonly go: string
      /** The number of the step that `go` names. */
      readonly to?: number
      readonly field?: FormField
    }

export interface Blank {
  readonly label: string
  readonly size: 'short' | 'medium' | 'long'
  readonly field?: FormField
}

export interface ReadingCell {
  readonly label: string
  readonly unit: string
  readonly limit: string
  readonly times: number
  readonly field?: FormField
}
