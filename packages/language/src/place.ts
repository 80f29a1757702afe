/** One position in a source text. Lines and columns count from 1, the offset from 0 in UTF-16 code units. */
export interface Point {
  readonly line: number
  readonly column: number
  readonly offset: number
}

/** A stretch of one source file; `end` is the position after the last character. */
export interface Place {
  readonly file: string
  readonly start: Point
  readonly end: Point
}
