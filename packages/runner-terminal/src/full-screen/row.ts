/** How a line is set apart; what it says never hangs on it. */
export type Tone =
  | 'plain'
  | 'strong'
  | 'faint'
  /** A line of a plot: what it says in words stands beside it. */
  | 'figure'
  /** The text of a notice, and what is wrong. */
  | 'alarm'
  /** The heading of a notice. */
  | 'danger'
  | 'warning'
  | 'caution'
  | 'notice'
  /** A source that can hurt, and one that was shown to be dead. */
  | 'live'
  | 'dead'

export interface Row {
  readonly text: string
  readonly tone: Tone
  /** What stands to the right of it, behind a line. */
  readonly beside?: Row
}

export function row(text: string, tone: Tone): Row {
  return { text, tone }
}
